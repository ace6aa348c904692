//! See `shophead_firmware::capability::number`.

#![no_std]
#![no_main]

shophead_firmware::image!(number);
