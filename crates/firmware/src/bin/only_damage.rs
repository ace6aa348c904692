//! See `shophead_firmware::capability::damage`.

#![no_std]
#![no_main]

shophead_firmware::image!(damage);
