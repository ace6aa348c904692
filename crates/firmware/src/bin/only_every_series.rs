//! See `shophead_firmware::capability::every_series`.

#![no_std]
#![no_main]

shophead_firmware::image!(every_series);
