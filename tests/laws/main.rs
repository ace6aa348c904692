//! Laws that hold for every input.

<<<<<<< HEAD
mod drills;
=======
mod part_numbers;
>>>>>>> h2
