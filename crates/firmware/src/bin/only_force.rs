//! See `shophead_firmware::capability::force`.

#![no_std]
#![no_main]

shophead_firmware::image!(force);
