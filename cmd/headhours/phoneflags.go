package main

import (
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
