//! See `shophead_firmware::capability::reading`.

#![no_std]
#![no_main]

shophead_firmware::image!(reading);
