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

	"headhours/cmd/headhours/sums"
	"headhours/timing/study"
)

// Serve serves the page until ctx is done, then lets requests that have begun
// end, closes the journals and says what was saved. Errors are of the study, the
// key, the network, or of journals that could not be closed.
func Serve(ctx context.Context, o Options) error {
	if err := readable(ctx, o.Study); err != nil {
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
	at, codes := pageAddresses(networks, listener), newCodes(time.Now)
	if err := greet(o, at, <-codes.fresh); err != nil {
		return errors.Join(err, listener.Close())
	}
	d := &desk{
		dir: o.Dir, key: key, names: hostNames(), networks: networks, study: o.Study, codes: codes, now: time.Now,
		usual: sums.New(o.Dir, false), recorders: newRecorders(filepath.Join(o.Dir, "journal")),
	}
	showing, stop := context.WithCancel(ctx)
	shows := make(chan struct{})
	go func() { defer close(shows); showCodes(showing, o, at, codes.fresh) }()
	err = run(ctx, newServer(newHandler(d), o.Err), newDoor(listener))
	stop()
	within(lastTime/4, func() { <-shows }) // what it is shown on may take nothing
	end := closeWithin(lastTime/4, d.recorders)
	fmt.Fprintf(o.Out, "\nPresses saved: %d; sessions begun: %d. Phones keep what they have not sent yet.\n", end.added, end.begun)
	return errors.Join(err, end.err)
}

// readable reads the study, unless ctx is done before: a file may be of a kind that
// waits for ever.
func readable(ctx context.Context, st func() (study.Study, error)) error {
	read := make(chan error, 1)
	go func() { _, err := st(); read <- err }()
	select {
	case err := <-read:
		return err
	case <-ctx.Done():
		return nil // it is told to end, which run does
	}
}

// errLate is the error of journals that could not be closed in time. What was
// answered stands in them.
var errLate = errors.New("a journal could not be closed in time: presses that phones have as saved are in it")

type closing struct {
	added, begun int
	err          error
}

// closeWithin closes the journals, for which it waits no longer than wait.
func closeWithin(wait time.Duration, r *recorders) closing {
	done := make(chan closing, 1)
	go func() {
		added, sessions, err := r.close()
		done <- closing{added, sessions, err}
	}()
	select {
	case end := <-done:
		return end
	case <-time.After(wait):
		return closing{err: errLate}
	}
}

// within runs f, for which it waits no longer than wait.
func within(wait time.Duration, f func()) {
	done := make(chan struct{})
	go func() { defer close(done); f() }()
	select {
	case <-done:
	case <-time.After(wait):
	}
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

// pageAddresses are where the page is found: on some networks, or else on this
// computer alone.
func pageAddresses(networks []netip.Prefix, l net.Listener) []string {
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
	headTime  = 5 * time.Second
	wholeTime = 15 * time.Second
	idleTime  = time.Minute
	lastTime  = 600 * time.Millisecond // for requests under way at the end
	maxHead   = 16 << 10               // bytes
)

func newServer(h http.Handler, complaints io.Writer) *http.Server {
	return &http.Server{
		Handler: h, ErrorLog: log.New(complaints, "headhours: ", 0), ConnContext: withVisitor,
		ReadHeaderTimeout: headTime, ReadTimeout: wholeTime, WriteTimeout: wholeTime, IdleTimeout: idleTime, MaxHeaderBytes: maxHead,
	}
}

// run serves until ctx is done, then ends what is under way: what does not end soon
// is cut off, and a phone sends it again.
func run(ctx context.Context, server *http.Server, d *door) error {
	ended := make(chan error, 1)
	go func() { ended <- server.Serve(d) }()
	select {
	case err := <-ended:
		return err
	case <-ctx.Done():
	}
	last, cancel := context.WithTimeout(context.WithoutCancel(ctx), lastTime)
	defer cancel()
	d.sendGuestsAway()
	err := server.Shutdown(last)
	if errors.Is(err, context.DeadlineExceeded) {
		return server.Close()
	}
	return err
}
