package main

import (
	"context"
	"os"
	"os/signal"
	"syscall"

	"github.com/spf13/pflag"

	face "headhours/cmd/headhours/phone"
)

// phoning are the flags of phone.
type phoning struct {
	lan, newKey bool
	port        int
}

func (p *phoning) define(set *pflag.FlagSet) {
	set.BoolVar(&p.lan, "lan", false, "let phones of the local network in, not this computer alone: what is sent is not encrypted")
	set.IntVar(&p.port, "port", face.DefaultPort, "`PORT` to be found at; 0: any that is free")
	set.BoolVar(&p.newKey, "new-key", false, "make a new key: phones that had the old one are shut out")
}

func (p *phoning) check() error {
	if p.port < 0 || p.port > 65535 {
		return outOfRange("port", p.port)
	}
	return nil
}

var phoneCommand = command{
	name: "phone", does: "stopwatch page for a phone",
	flags: []string{"lan", "port", "new-key"}, run: runPhone, attended: true,
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
