//! See `shophead_firmware::capability::nothing`.

#![no_std]
#![no_main]

shophead_firmware::image!(nothing);
