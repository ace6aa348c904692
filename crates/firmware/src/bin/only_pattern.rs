//! See `shophead_firmware::capability::pattern`.

#![no_std]
#![no_main]

shophead_firmware::image!(pattern);
