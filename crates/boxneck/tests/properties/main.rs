//! What holds for every instrument, whatever its document says?

#[path = "../random_document/mod.rs"]
mod random_document;

mod acceptance;
mod builds;
mod documents;
mod drawings;
mod layouts;
mod mends;
mod mirror;
mod solids;
mod tolerances;
