package main

import "strings"

// hostileNumbers are cells that are nearly a number, a time or a day.
func hostileNumbers() []hostile {
	var cases []hostile
	for _, c := range []struct{ why, count string }{
		{"an exponent", "1e9"}, {"a sign above 0", "+5"}, {"infinity as a word", "inf"}, {"no number as a word", "NaN"},
		{"full-width digits", "１０"}, {"Arabic digits", "٣"}, {"grouped digits", "1 000"}, {"grouped digits with a narrow blank", "1\u202f000"},
		{"base 16", "0x10"}, {"an underscore", "1_0"}, {"a point alone", "."}, {"two points", "1.2.3"}, {"a fraction sign", "½"}, {"a digit and a mark that turns text about", "1\u200f"},
	} {
		cases = append(cases, log("count "+c.count, c.why, header+"sow,∑\""+c.count+"\",60\n").fails("is not a number: digits with at most one decimal point"))
	}
	cases = append(cases, log("count 1,5", "a decimal comma among commas", header+"sow,∑\"1,5\",60\n").fails("is not a number where commas part the columns: write 1.5, or save the file"))
	for _, c := range []struct{ why, time string }{
		{"a sign", "-3:07"}, {"sixty seconds", "3:60"}, {"one digit of seconds", "3:7"}, {"a full-width digit", "３:07"}, {"an exponent", "1e9"},
		{"minutes twice", "PT1M1.5M"}, {"units the wrong way round", "7s3m"}, {"a mark that turns text about", "3m7s\u200f"}, {"four parts", "1:00:00:00"}, {"a decimal within", "1.5:00"},
	} {
		cases = append(cases, log("time "+c.time, c.why, header+"sow,1,∑"+c.time+"\n").fails("is not a time: seconds as 187"))
	}
	for _, c := range []struct{ why, day string }{
		{"a day that is not", "2026-02-30"}, {"a leap day of no leap year", "2100-02-29"}, {"one digit", "2026-1-2"}, {"five digits of year", "10000-01-01"},
		{"before the year 0", "-001-01-01"}, {"Arabic digits", "٢٠٢٦-٠١-٠١"}, {"a time of day behind it", "2026-01-01T00:00"},
	} {
		cases = append(cases, log("date "+c.day, c.why, "date,step,count,time\n∑"+c.day+",sow,1,2\n").fails("is not a date"))
	}
	for _, c := range []struct{ why, end string }{
		{"the end of the day", "24:00"}, {"hours alone", "12"}, {"one digit of minutes", "1:2"}, {"a sixtieth second", "0:00:60"}, {"Arabic digits", "٠:٠٠"}, {"a sign", "-1:00"}, {"a hundred hours", "100:00"},
	} {
		cases = append(cases, log("end "+c.end, c.why, "start,end,step,count\n0:00,∑"+c.end+",sow,1\n").fails("is not a time of day: H:MM"))
	}
	nines := strings.Repeat("9", 400)
	return append(cases,
		log("count -5", "a count with a sign", header+"sow,∑-5,60\n").fails("count \"-5\" is below 0"),
		log("400 digits", "a count beyond all numbers", header+"sow,∑"+nines+",60\n").fails("too large"),
		log("400 digits of minutes", "a time beyond all numbers", header+"sow,1,∑"+nines+":00\n").fails("too large"),
		log("as good as 0", "a count that rounds to 0", header+"sow,∑0."+strings.Repeat("0", 330)+"1,60\n").fails("is not above 0"),
		log("more than any farm has", "people, rating and time that no farm has, all of them told",
			"step,count,people,rating,time\nsow,1,∑1"+strings.Repeat("0", 13)+",∑1"+strings.Repeat("0", 13)+",∑1"+strings.Repeat("0", 200)+"\n").fails("more than any farm has"),
		log("24 minutes", "24:00 is minutes and seconds, 1440 s", header+"sow,1,24:00\n").gives("sow 1 1 - 1440 s unit"),
		log("a hundred hours", "the first part of a time may be any size", header+"sow,1,100:00:00\n").gives("sow 1 1 - 360000 s unit").hints("hint: readings that look mistyped: 1; headhours check names them"),
		log("date 02-03-2026", "day or month first", "date,step,count,time\n∑02-03-2026,sow,1,2\n").fails("may have its day or its month first"),
		log("past midnight", "an end before its start, by a minute short of a day", "start,end,step,count\n0:01,0:00,sow,1\n").gives("sow 1 1 - 86340 s unit").hints("hint: readings that look mistyped: 1; headhours check names them"),
		log("a pause of all the time", "a pause that leaves nothing", "start,end,paused,step,count\n8:00,∑8:10,10:00,sow,1\n").fails("leaves no time"),
		log("first and last day", "days at both ends of the calendar", "date,step,count,time\n0002-01-01,sow,10,60\n9999-12-31,sow,20,120\n").gives("sow 2 10–20 0.00 s 6.0 s unit").hints("hint: readings that look mistyped: 2; headhours check names them"),
		log("1.30", "seconds that may be minutes: read as seconds, and said", header+"sow,1,∑1.30\n").warns(`"1.30" is read as 1.30 seconds`).gives("sow 1 1 - 1.3 s unit"),
	)
}

// warns says what a case writes to standard error beside its answer.
func (c hostile) warns(says ...string) hostile { c.says = append(c.says, says...); return c }
