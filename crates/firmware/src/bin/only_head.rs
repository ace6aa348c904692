//! See `shophead_firmware::capability::head`.

#![no_std]
#![no_main]

shophead_firmware::image!(head);
