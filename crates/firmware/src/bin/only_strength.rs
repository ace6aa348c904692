//! See `shophead_firmware::capability::strength`.

#![no_std]
#![no_main]

shophead_firmware::image!(strength);
