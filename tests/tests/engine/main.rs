//! The built engine, held against the core that it is built from.

mod engine_size;
mod parity;
