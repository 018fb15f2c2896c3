package phone

import (
	"context"
	"errors"
	"fmt"
	"io"
	"log"
	"net"
	"net/http"
	"net/netip"
	"path/filepath"
	"strconv"
	"syscall"
	"time"

	"headhours/timing"
)

// DefaultPort is where phones find the page unless told otherwise.
const DefaultPort = 8737

// Options say what to serve and to whom.
type Options struct {
	Dir    string                       // the study folder
	Study  func() (timing.Study, error) // reads the study as it is now
	LAN    bool                         // on local networks too, not this computer alone
	Port   int                          // 0: any that is free
	NewKey bool                         // phones that had the old one are shut out
	Out    io.Writer                    // for the address and its code
	Err    io.Writer                    // for what goes wrong later
	Colour bool                         // Out is a terminal with colours
}

// Serve serves the page until ctx is done, then lets requests that have begun
// end, closes the journals and says what was saved. Errors are of the study, the
// key, the network, or of journals that could not be closed.
func Serve(ctx context.Context, o Options) error {
	if _, err := o.Study(); err != nil {
		return err
	}
	key, err := loadKey(o.Dir, o.NewKey)
	if err != nil {
		return err
	}
	var networks []netip.Prefix
	if o.LAN {
		if networks, err = localNetworks(); err != nil {
			return err
		}
	}
	listener, err := listen(o)
	if err != nil {
		return err
	}
	if err := greet(o, addresses(networks, listener), key); err != nil {
		return errors.Join(err, listener.Close())
	}
	d := &desk{
		dir: o.Dir, key: key, names: hostNames(), networks: networks, study: o.Study,
		recorders: newRecorders(filepath.Join(o.Dir, "journal")),
	}
	err = run(ctx, newServer(newHandler(d), o.Err), atMost(listener, mostConnections))
	added, begun, closing := d.recorders.close()
	fmt.Fprintf(o.Out, "\nPresses saved: %d; sessions begun: %d. Phones keep what they have not sent yet.\n", added, begun)
	return errors.Join(err, closing)
}

func listen(o Options) (net.Listener, error) {
	on := "127.0.0.1"
	if o.LAN {
		on = "0.0.0.0"
	}
	l, err := net.Listen("tcp4", net.JoinHostPort(on, strconv.Itoa(o.Port)))
	if errors.Is(err, syscall.EADDRINUSE) {
		return nil, fmt.Errorf("port %d is taken, perhaps by another headhours phone: stop that, or give another --port", o.Port)
	}
	return l, err
}

// addresses are where the page is found: on some networks, or else on this
// computer alone.
func addresses(networks []netip.Prefix, l net.Listener) []string {
	hosts := []string{"localhost"}
	if len(networks) > 0 {
		hosts = nil
	}
	for _, n := range networks {
		hosts = append(hosts, n.Addr().String())
	}
	_, port, _ := net.SplitHostPort(l.Addr().String()) // a listener's own
	for i, host := range hosts {
		hosts[i] = "http://" + net.JoinHostPort(host, port) + "/"
	}
	return hosts
}

// Bounds on slow clients. A batch is small; a phone that is cut off sends again.
const (
	headTime        = 5 * time.Second
	wholeTime       = 15 * time.Second
	idleTime        = time.Minute
	lastTime        = 5 * time.Second // for requests under way at the end
	mostHead        = 16 << 10        // bytes
	mostConnections = 64
)

func newServer(h http.Handler, complaints io.Writer) *http.Server {
	return &http.Server{
		Handler: h, ErrorLog: log.New(complaints, "headhours: ", 0),
		ReadHeaderTimeout: headTime, ReadTimeout: wholeTime, WriteTimeout: wholeTime, IdleTimeout: idleTime, MaxHeaderBytes: mostHead,
	}
}

// run serves until ctx is done, then ends what is under way.
func run(ctx context.Context, server *http.Server, l net.Listener) error {
	ended := make(chan error, 1)
	go func() { ended <- server.Serve(l) }()
	select {
	case err := <-ended:
		return err
	case <-ctx.Done():
	}
	last, cancel := context.WithTimeout(context.WithoutCancel(ctx), lastTime)
	defer cancel()
	if err := server.Shutdown(last); err != nil {
		return errors.Join(err, server.Close())
	}
	return nil
}
