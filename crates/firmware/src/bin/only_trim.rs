//! See `shophead_firmware::capability::trim`.

#![no_std]
#![no_main]

shophead_firmware::image!(trim);
