//! See `shophead_firmware::capability::length`.

#![no_std]
#![no_main]

shophead_firmware::image!(length);
