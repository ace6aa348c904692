//! See `shophead_firmware::capability::joints`.

#![no_std]
#![no_main]

shophead_firmware::image!(joints);
