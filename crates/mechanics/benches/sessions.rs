//! How long fitting a calibration takes. Run by hand: `cargo bench -p mechanics`.

fn main() {
    divan::main();
}
