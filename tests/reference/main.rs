//! Published tables and worked examples, cell by cell.

<<<<<<< HEAD
mod drills;
mod materials;
=======
mod mass;
mod part_numbers;
mod rivets;
>>>>>>> h2
