//! See `shophead_firmware::capability::hole`.

#![no_std]
#![no_main]

shophead_firmware::image!(hole);
