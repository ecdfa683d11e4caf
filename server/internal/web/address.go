package web

import (
	"fmt"
	"net"
	"net/netip"
	"net/url"
	"strings"
)

// Address is how people reach the service, and so what may be promised about the way there.
type Address struct {
	// Base begins the links that are printed: "https://yard.example".
	Base string
	// Secure: people come by https. Local: they come by plain http on this machine alone. Where neither holds
	// nobody signs in, for the cookie would go over the wire for all to read.
	Secure, Local bool
}

// PublicError: an address that people are said to come by and that cannot be one.
type PublicError struct{ Text, Fix string }

func (e *PublicError) Error() string {
	return fmt.Sprintf("%q cannot be the address that people come by: %s", e.Text, e.Fix)
}

// AddressOf reads the address that people come by; where none is given it is the one that is listened on.
func AddressOf(public, listening string) (Address, error) {
	if public == "" {
		return Address{Base: "http://" + listening, Local: onThisMachine(listening)}, nil
	}
	u, err := url.Parse(public)
	if err != nil || u.Host == "" || u.User != nil || u.RawQuery != "" || u.Fragment != "" || strings.Trim(u.Path, "/") != "" {
		return Address{}, &PublicError{public, "write it as https://yard.example, without a path"}
	}
	out := Address{Base: u.Scheme + "://" + u.Host, Secure: u.Scheme == "https", Local: u.Scheme == "http" && onThisMachine(u.Host)}
	if !out.Secure && !out.Local {
		return Address{}, &PublicError{public, "beyond this machine people must come by https; set a server that speaks it in front of this one"}
	}
	return out, nil
}

func onThisMachine(hostport string) bool {
	host, _, err := net.SplitHostPort(hostport)
	if err != nil {
		host = strings.Trim(hostport, "[]")
	}
	if host == "localhost" {
		return true
	}
	ip, err := netip.ParseAddr(host)
	return err == nil && ip.IsLoopback()
}

// SignIn reports whether people can sign in.
func (a Address) SignIn() bool { return a.Secure || a.Local }

// EnterLink is the link that signs in the holder of a token.
func (a Address) EnterLink(token string) string { return a.Base + enterPath + token }
