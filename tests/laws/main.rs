//! Laws that hold for every input.

mod answered;
mod common;
mod drills;
mod entered;
mod exact;
mod group;
mod hole;
mod installation;
mod joint;
mod ladder;
mod layers;
mod layout;
mod oracle;
mod length;
mod load_share;
mod part_numbers;
mod pattern;
mod positions;
mod practice;
mod repair;
mod rivet_length;
mod row;
mod strip;
mod sweep;
mod trim;
mod upset;
