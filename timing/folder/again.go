package folder

import (
	"errors"
	"fmt"

	"headhours/timing/condense"
	"headhours/timing/study"
	"headhours/timing/tasklog"
)

// again goes through all readings once more.
func (o *Opened) again(look func(*condense.Batch), take func(*condense.Batch) error) error {
	count := counting{tell: o.how.Progress}
	for _, l := range o.logs {
		count.of += l.info.Size()
	}
	for _, l := range o.logs {
		if err := o.scanAgain(l, look, take, &count); err != nil {
			return err
		}
	}
	return condense.InMemory(o.recorded)(look, take)
}

func (o *Opened) scanAgain(l *logFile, look func(*condense.Batch), take func(*condense.Batch) error, count *counting) error {
	if l.only != nil {
		count.add(int(l.info.Size()))
		if look != nil {
			look(l.only)
		}
		return take(l.only)
	}
	if err := l.same(); err != nil {
		return err
	}
	r, err := l.open()
	if err != nil {
		return err
	}
	defer r.Close()
	found, err := l.scan(count.counted(r), o.dialectOf(l), look, take)
	_, bad := errors.AsType[study.Problems](err)
	if bad || err == nil && found.Readings != l.readings {
		return fmt.Errorf("%s %w", l.path, errChanged)
	}
	if err != nil {
		return err
	}
	return l.same()
}

func (o *Opened) readAgain(l *logFile) ([]study.Reading, error) {
	if err := l.same(); err != nil {
		return nil, err
	}
	r, err := l.open()
	if err != nil {
		return nil, err
	}
	defer r.Close()
	log, err := tasklog.Read(r, l.path, o.dialectOf(l))
	if _, bad := errors.AsType[study.Problems](err); bad {
		return nil, fmt.Errorf("%s %w", l.path, errChanged)
	}
	return log.Readings, err
}
