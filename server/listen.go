package main

import (
	"errors"
	"fmt"
	"net"
	"net/netip"
	"strconv"
	"syscall"
)

// listenFault says why nobody can listen at an address.
func listenFault(address string, err error) error {
	_, port, _ := net.SplitHostPort(address)
	n, notNumber := strconv.Atoi(port)
	switch {
	case errors.Is(err, syscall.EADDRINUSE):
		return fmt.Errorf("cannot listen on %s: another program listens there. Stop it, or name another address with -listen", address)
	case errors.Is(err, syscall.EACCES):
		return fmt.Errorf("cannot listen on %s: this user may not. Name a port above 1023 with -listen", address)
	case errors.Is(err, syscall.EADDRNOTAVAIL):
		return fmt.Errorf("cannot listen on %s: this machine has no such address. Name one of its own with -listen, such as 127.0.0.1:8080", address)
	case port == "":
		return fmt.Errorf("cannot listen on %s: it names no port. Name an address and a port with -listen, such as 127.0.0.1:8080", address)
	case notNumber != nil || n < 0 || n > 65535:
		return fmt.Errorf("cannot listen on %s: %s is no port. A port is a number from 1 to 65535, such as 8080", address, port)
	}
	return fmt.Errorf("cannot listen on %s: %w. Name an address of this machine with -listen, such as 127.0.0.1:8080", address, err)
}

// reached is an address that a browser on this machine can open: one that stands for every address of the machine
// opens nothing.
func reached(listening string) string {
	at, err := netip.ParseAddrPort(listening)
	if err != nil || !at.Addr().IsUnspecified() {
		return listening
	}
	return net.JoinHostPort("127.0.0.1", strconv.Itoa(int(at.Port())))
}
