package phone

import (
	"cmp"
	"errors"
	"net"
	"net/netip"
	"os"
	"slices"
	"strings"
)

// errNoNetwork is the error of a computer on no local network.
var errNoNetwork = errors.New("this computer is on no local network that a phone could share: join one, or leave --lan out")

// localNetworks lists the addresses of this computer on local networks, each
// with how wide its network is, the likeliest to be shared with a phone first.
// They are of IPv4, which people can type.
func localNetworks() ([]netip.Prefix, error) {
	cards, err := net.Interfaces()
	if err != nil {
		return nil, err
	}
	var found []netip.Prefix
	for _, card := range cards {
		if !shared(card.Flags) {
			continue
		}
		addresses, err := card.Addrs()
		if err != nil {
			return nil, err
		}
		for _, a := range addresses {
			if p, err := netip.ParsePrefix(a.String()); err == nil && p.Addr().Is4() {
				found = append(found, p)
			}
		}
	}
	if len(found) == 0 {
		return nil, errNoNetwork
	}
	slices.SortStableFunc(found, func(a, b netip.Prefix) int { return cmp.Compare(rank(a.Addr()), rank(b.Addr())) })
	return found, nil
}

// shared says whether a network interface may lead to a phone: not one to this
// computer itself, to one peer (a tunnel), or without a cable or radio that is on.
func shared(f net.Flags) bool {
	const wanted = net.FlagUp | net.FlagRunning | net.FlagBroadcast
	return f&wanted == wanted && f&(net.FlagLoopback|net.FlagPointToPoint) == 0
}

// rank is low for networks that routers at home commonly make (common practice,
// no source), higher for those that virtual machines do and for all others.
func rank(a netip.Addr) int {
	for i, prefix := range []string{"192.168.0.0/16", "10.0.0.0/8", "172.16.0.0/12"} {
		if netip.MustParsePrefix(prefix).Contains(a) {
			return i
		}
	}
	return 3
}

// hostNames are the names, beside its addresses, that this computer goes by.
func hostNames() []string {
	names := []string{"localhost"}
	name, err := os.Hostname()
	if err != nil || name == "" {
		return names
	}
	first, _, _ := strings.Cut(name, ".")
	return append(names, name, first, first+".local")
}
