package folder

import (
	"os"
	"os/signal"
	"syscall"
)

// removedAtInterrupt removes a file if the program is broken off before stop is called,
// and lets it be broken off then.
func removedAtInterrupt(name string) (stop func()) {
	interrupts, done := make(chan os.Signal, 1), make(chan struct{})
	signal.Notify(interrupts, os.Interrupt, syscall.SIGTERM)
	go func() {
		select {
		case which := <-interrupts:
			os.Remove(name)
			signal.Stop(interrupts)
			breakOff(which)
		case <-done:
		}
	}()
	return func() {
		signal.Stop(interrupts)
		close(done)
	}
}

// breakOff ends the program as the signal would have without being noticed, unless
// another part of it notices the signal too.
func breakOff(which os.Signal) {
	self, err := os.FindProcess(os.Getpid())
	if err == nil && self.Signal(which) != nil { // as on Windows
		_ = self.Kill()
	}
}
