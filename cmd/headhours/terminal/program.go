package terminal

import (
	"context"
	"errors"
	"io"
	"os/signal"
	"strings"
	"syscall"
	"time"

	tea "charm.land/bubbletea/v2"
)

// Run shows the screen until it is left. It returns once all that was pressed is
// on the disk; else the error names what is not. That the terminal went away, or
// that the process was told to end, is no error: what is open is taken up by the
// next run.
func Run(c Config, in io.Reader, out io.Writer, options ...tea.ProgramOption) error {
	p := newProgram(c)
	ctx, stop := signal.NotifyContext(context.Background(), syscall.SIGHUP)
	defer stop()
	options = append([]tea.ProgramOption{tea.WithInput(in), tea.WithOutput(out), tea.WithContext(ctx)}, options...)
	t := tea.NewProgram(p, options...)
	p.redraw = func() { t.Send(drawMessage{}) }
	end := p.work()
	_, err := t.Run()
	end()
	if errors.Is(err, tea.ErrProgramKilled) && !errors.Is(err, tea.ErrProgramPanic) || errors.Is(err, tea.ErrInterrupted) {
		err = nil
	}
	if left := p.screen.left(); len(left) > 0 {
		p.at = p.clock()
		err = errors.Join(err, p.recorder.press(left...))
	}
	return errors.Join(err, p.finish(out))
}

func newProgram(c Config) *program {
	at := c.Now()
	r := newRecorder(c, at)
	return &program{recorder: r, clock: c.Now, screen: newScreen(&r.desk, c.Names, r.notice(), at), width: 80, height: 24}
}

// tickMessage is the next whole second of the clock, or time to try to save again.
type tickMessage struct{}

// doneMessage is what was done for a key; what is left of it is the terminal's.
type doneMessage struct{ outcome }

// drawMessage says that something is to be drawn that came by itself.
type drawMessage struct{}

func (p *program) Init() tea.Cmd { return p.nextTick() }

func (p *program) nextTick() tea.Cmd {
	wait := time.Second
	if p.mu.TryLock() {
		if elapsed := p.state.Elapsed(p.clock()); elapsed > 0 {
			wait -= elapsed % time.Second
		}
		p.mu.Unlock()
	}
	return tea.Tick(wait+5*time.Millisecond, func(time.Time) tea.Msg { return tickMessage{} })
}

func (p *program) Update(msg tea.Msg) (tea.Model, tea.Cmd) {
	switch msg := msg.(type) {
	case tea.WindowSizeMsg:
		p.width, p.height = msg.Width, msg.Height
	case tickMessage:
		return p, tea.Batch(p.ask(job{tick: true}), p.nextTick())
	case tea.PasteMsg:
		return p, p.ask(job{key: keystroke{name: "paste", text: msg.Content}})
	case tea.KeyPressMsg:
		return p, p.ask(job{key: keyOf(msg.Key())})
	case doneMessage:
		return p, p.leftToDo(msg.outcome)
	}
	return p, nil
}

// ask has a job done, at this moment.
func (p *program) ask(j job) tea.Cmd {
	j.at = p.clock()
	if p.jobs == nil {
		return p.leftToDo(p.one(j))
	}
	j.outcomes = make(chan outcome, 1)
	p.jobs <- j
	return func() tea.Msg { return doneMessage{<-j.outcomes} }
}

// leftToDo is what a key leaves to the terminal.
func (p *program) leftToDo(do outcome) tea.Cmd {
	switch {
	case do.quit:
		return tea.Quit
	case do.suspend:
		return suspend()
	case do.redraw:
		return tea.ClearScreen
	}
	return nil
}

// keyOf is a key by its name; those of a key pad are as those of the keyboard,
// whatever way the terminal sends them.
func keyOf(k tea.Key) keystroke {
	name, text := k.String(), k.Text
	switch {
	case k.Code == tea.KeySpace:
		name = "space"
	case text != "":
	case k.Code >= tea.KeyKp0 && k.Code <= tea.KeyKp9:
		text = string('0' + k.Code - tea.KeyKp0)
	case k.Code == tea.KeyKpDecimal:
		text = "."
	case k.Code == tea.KeyKpPlus:
		name, text = "+", "+"
	case k.Code == tea.KeyKpMinus:
		name, text = "-", "-"
	}
	return keystroke{name: name, text: text}
}

// View is the screen. While a key is being done, which takes long where the disk does, it
// is what it was.
func (p *program) View() tea.View {
	if p.mu.TryLock() {
		p.last = p.screen.view(p.width, p.height, p.clock())
		p.mu.Unlock()
	}
	var b strings.Builder
	for i, l := range p.last {
		if i > 0 {
			b.WriteByte('\n')
		}
		b.WriteString(l.painted())
	}
	v := tea.NewView(b.String())
	v.AltScreen = true
	v.WindowTitle = "headhours record"
	return v
}
