//! See `shophead_firmware::capability::every_practice`.

#![no_std]
#![no_main]

shophead_firmware::image!(every_practice);
