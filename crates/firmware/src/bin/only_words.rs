//! See `shophead_firmware::capability::words`.

#![no_std]
#![no_main]

shophead_firmware::image!(words);
