//! See `shophead_firmware::capability::layout`.

#![no_std]
#![no_main]

shophead_firmware::image!(layout);
