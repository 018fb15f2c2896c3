package terminal

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os/signal"
	"strings"
	"syscall"
	"time"

	tea "charm.land/bubbletea/v2"

	"headhours/timing/stopwatch"
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
	_, err := tea.NewProgram(p, options...).Run()
	if errors.Is(err, tea.ErrProgramKilled) && !errors.Is(err, tea.ErrProgramPanic) || errors.Is(err, tea.ErrInterrupted) {
		err = nil
	}
	if left := p.screen.Left(); len(left) > 0 {
		err = errors.Join(err, p.recorder.press(left...))
	}
	return errors.Join(err, p.finish(out))
}

// listed is the readings of a session, a line each.
func listed(s stopwatch.State) string {
	var b strings.Builder
	for _, r := range s.Readings {
		fmt.Fprintf(&b, "  %s  %s  %s", r.Began.Format("15:04:05"), r.Step, clock(r.Seconds))
		if r.Counted.Known {
			b.WriteString("  of " + number(r.Count))
		}
		b.WriteByte('\n')
	}
	return b.String()
}

// program stands between the screen and the terminal.
type program struct {
	*recorder
	screen        *Screen
	width, height int
}

func newProgram(c Config) *program {
	r := newRecorder(c)
	return &program{recorder: r, screen: newScreen(&r.desk, c.Names, r.notice(c.Notice), c.Now()), width: 80, height: 24}
}

// tick is the next whole second of the clock, or time to try to save again.
type tick struct{}

func (p *program) Init() tea.Cmd { return p.tick() }

func (p *program) tick() tea.Cmd {
	wait := time.Second
	if elapsed := p.state.Elapsed(p.now()); elapsed > 0 {
		wait -= elapsed % time.Second
	}
	return tea.Tick(wait+5*time.Millisecond, func(time.Time) tea.Msg { return tick{} })
}

func (p *program) Update(msg tea.Msg) (tea.Model, tea.Cmd) {
	switch msg := msg.(type) {
	case tea.WindowSizeMsg:
		p.width, p.height = msg.Width, msg.Height
	case tick:
		p.save()
		return p, p.tick()
	case tea.PasteMsg:
		return p, p.press(Key{Name: "paste", Text: msg.Content})
	case tea.KeyPressMsg:
		return p, p.press(keyOf(msg.Key()))
	}
	return p, nil
}

// press takes a key and does what it asks for; what is left to do is the
// terminal's.
func (p *program) press(k Key) tea.Cmd {
	do := p.take(k)
	switch {
	case do.Quit:
		return tea.Quit
	case do.Suspend:
		return suspend()
	case do.Redraw:
		return tea.ClearScreen
	}
	return nil
}

func (p *program) take(k Key) Do {
	now := p.now()
	do := p.screen.Key(k, now)
	for do.Then != nil || len(do.Events) > 0 || do.TakeUp != "" {
		err := p.do(do)
		p.screen.went(err)
		then := do.Then
		do = Do{}
		if then != nil {
			do = then(err, now)
		}
	}
	return do
}

func (p *program) do(do Do) error {
	switch {
	case do.TakeUp != "":
		return p.takeUp(do.TakeUp)
	case do.In != "":
		return p.pressIn(do.In, do.Events...)
	case len(do.Events) > 0:
		return p.recorder.press(do.Events...)
	}
	return nil
}

// keyOf is a key by its name; those of a key pad are as those of the keyboard,
// whatever way the terminal sends them.
func keyOf(k tea.Key) Key {
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
	return Key{Name: name, Text: text}
}

func (p *program) View() tea.View {
	var b strings.Builder
	for i, l := range p.screen.View(p.width, p.height, p.now()) {
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
