//! See `shophead_firmware::capability::a_panic`.

#![no_std]
#![no_main]

shophead_firmware::image!(a_panic);
