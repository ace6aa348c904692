//! See `shophead_firmware::capability::everything`.

#![no_std]
#![no_main]

shophead_firmware::image!(everything);
