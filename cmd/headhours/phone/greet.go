package phone

import "fmt"

// greet says where the page is, to whom it is open, and how to end.
func greet(o Options, addresses []string, key string) error {
	if !o.LAN {
		_, err := fmt.Fprintf(o.Out, `The stopwatch's page, for this computer alone (for a phone on your network: --lan):

%s#%s

Ctrl-C ends it.
`, addresses[0], key)
		return err
	}
	qr, err := code(addresses[0]+"#"+key, o.Colour)
	if err != nil {
		return err
	}
	others := ""
	for _, a := range addresses[1:] {
		others += fmt.Sprintf("or, on another network: %s#%s\n", a, key)
	}
	_, err = fmt.Fprintf(o.Out, `The stopwatch's page, for phones on your network.

Take care: it is open to that network, and what is sent is not encrypted. Whoever
has the address, or listens on the network, can read today's readings and add to
them. Use a network you trust; --new-key shuts out all who had the address.

%s
Point the phone's camera at the code, or type: %s#%s
%sCtrl-C ends it.
`, qr, addresses[0], key, others)
	return err
}
