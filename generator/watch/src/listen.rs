//! A port of this machine.

use std::io::{self, ErrorKind};
use std::net::{Ipv4Addr, SocketAddr, TcpListener};

use crate::error::StartError;

/// The port that is taken where none is asked for, so that an open window finds the next preview too.
pub(crate) const FIRST_PORT: u16 = 7328;
/// How many ports are tried from there on.
const TRIED_PORTS: u16 = 20;

/// Where to listen. Always on 127.0.0.1: nothing outside of this machine reaches it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Port {
    /// The first that is free, from 7328 on.
    Free,
    /// This one; with 0, one that the system chooses.
    This(u16),
}

/// Takes the port.
pub(crate) fn on(port: Port) -> Result<(TcpListener, SocketAddr), StartError> {
    match port {
        Port::This(number) => bind(number).map_err(|error| match error.kind() {
            ErrorKind::AddrInUse => StartError::PortTaken(number),
            _ => StartError::Listen(error),
        }),
        Port::Free => {
            let last = FIRST_PORT + TRIED_PORTS - 1;
            (FIRST_PORT..=last).find_map(|number| bind(number).ok()).map_or_else(|| first_error(last), Ok)
        }
    }
}

/// Why none of the ports could be taken.
fn first_error(last: u16) -> Result<(TcpListener, SocketAddr), StartError> {
    match bind(FIRST_PORT) {
        Err(error) if error.kind() != ErrorKind::AddrInUse => Err(StartError::Listen(error)),
        // It has become free in this very moment.
        Ok(bound) => Ok(bound),
        Err(_) => Err(StartError::NoPortFree { first: FIRST_PORT, last }),
    }
}

fn bind(number: u16) -> io::Result<(TcpListener, SocketAddr)> {
    with_address(TcpListener::bind((Ipv4Addr::LOCALHOST, number))?)
}

fn with_address(listener: TcpListener) -> io::Result<(TcpListener, SocketAddr)> {
    let address = listener.local_addr()?;
    Ok((listener, address))
}

/// The same, for the runtime that asks; it must be asked there.
pub(crate) fn for_tokio(listener: TcpListener) -> io::Result<tokio::net::TcpListener> {
    listener.set_nonblocking(true)?;
    tokio::net::TcpListener::from_std(listener)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_port_in_use_is_refused_and_passed_over() {
        let (_held, address) = on(Port::This(0)).expect("port");
        assert!(address.ip().is_loopback());
        assert!(matches!(on(Port::This(address.port())), Err(StartError::PortTaken(port)) if port == address.port()));
        // Whether the first is free here or not, some port is, and two previews do not get the same.
        let (one, other) = (on(Port::Free).expect("port"), on(Port::Free).expect("port"));
        assert_ne!(one.1, other.1);
    }
}
