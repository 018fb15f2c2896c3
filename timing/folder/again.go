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
	var done, total int64
	for _, l := range o.logs {
		total += l.info.Size()
	}
	for _, l := range o.logs {
		if err := o.scanAgain(l, look, take, &counting{nil, &done, total, o.how.Progress}); err != nil {
			return err
		}
	}
	return condense.InMemory(o.recorded)(look, take)
}

func (o *Opened) scanAgain(l *logFile, look func(*condense.Batch), take func(*condense.Batch) error, count *counting) error {
	if l.only != nil {
		*count.done += l.info.Size()
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
	count.r = r
	found, err := l.scan(count, o.dialectOf(l), look, take)
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
