//! Are bodies what their descriptions say: in volume, closed, outward, and the same as a mesh and as a B-rep?

mod faults;
mod random_chains;
mod samples;
mod second_reader;
mod volumes;
