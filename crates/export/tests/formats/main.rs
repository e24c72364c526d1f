//! Do the files hold what they were made from, in the eyes of readers that are not ours?
//!
//! Small text files are kept in full in `tests/golden`; where one is meant to change, run the tests once with the
//! environment variable `BLESS=1` and read the difference before it is committed.

mod bodies;
mod chart_file;
mod colours;
mod dxf_file;
mod dxf_style;
mod gltf_file;
mod golden;
mod overview;
mod pdf_file;
mod random;
mod remark;
mod sample;
mod step_file;
mod stl_file;
mod svg_file;
mod threemf_file;
