package phone

import (
	"context"
	"fmt"
	"time"
)

// greet says where the page is, to whom it is open, and how to end.
func greet(o Options, addresses []string, code string) error {
	first := `The stopwatch's page, for this computer alone (for a phone on your network: --lan):

`
	if o.LAN {
		first = `The stopwatch's page, for phones on your network.

Take care: it is open to that network, and what is sent is not encrypted. Whoever
comes in with a code, or listens on the network, can read today's readings and add
to them. Use a network you trust; --new-key shuts out all phones that are in.

`
	}
	text, err := invitation(o, addresses, code)
	if err != nil {
		return err
	}
	_, err = fmt.Fprint(o.Out, first+text+"Ctrl-C ends it.\n")
	return err
}

// invitation is how one phone comes in, with a code.
func invitation(o Options, addresses []string, code string) (string, error) {
	until := time.Now().Add(maxCodeAge).Format("15:04")
	if !o.LAN {
		return fmt.Sprintf("%s#%s\n\nIt lets one browser in, until %s, which stays in; then another address is shown.\n", addresses[0], code, until), nil
	}
	qr, err := qrText(addresses[0]+"#"+code, o.Colour)
	if err != nil {
		return "", err
	}
	others := ""
	for _, a := range addresses[1:] {
		others += fmt.Sprintf("or, on another network: %s#%s\n", a, code)
	}
	return fmt.Sprintf(`%s
Point the phone's camera at the code, or type: %s#%s
%sIt lets one phone in, until %s, which stays in; then another code is shown.
`, qr, addresses[0], code, others, until), nil
}

// showCodes shows each fresh code until ctx is done.
func showCodes(ctx context.Context, o Options, addresses []string, fresh <-chan string) {
	for {
		select {
		case <-ctx.Done():
			return
		case code := <-fresh:
			text, err := invitation(o, addresses, code)
			if err == nil {
				_, err = fmt.Fprint(o.Out, "\nFor another phone:\n\n"+text)
			}
			if err != nil {
				fmt.Fprintln(o.Err, "headhours: a fresh code cannot be shown:", err)
			}
		}
	}
}
