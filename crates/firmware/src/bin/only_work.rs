//! See `shophead_firmware::capability::work`.

#![no_std]
#![no_main]

shophead_firmware::image!(work);
