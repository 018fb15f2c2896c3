package main

import (
	"context"
	"os"
	"os/signal"
	"syscall"

	face "headhours/cmd/headhours/phone"
)

var phoneCommand = command{
	name: "phone", does: "stopwatch page for a phone",
	flags: []string{"lan", "port", "new-key"}, do: runPhone, attended: true,
	examples: []string{"headhours phone --lan", "headhours phone --lan --new-key # shut out phones that were let in before",
		"headhours phone # for this computer alone"},
}

// runPhone serves the stopwatch's page until it is interrupted; a second
// interrupt does not wait.
func runPhone(c *call) error {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	context.AfterFunc(ctx, stop)
	return face.Serve(ctx, face.Options{
		Dir: c.study, Study: c.onlyStudy, LAN: c.lan, Port: c.port, NewKey: c.newKey,
		Out: c.stdout, Err: c.stderr, Colour: c.colour,
	})
}
