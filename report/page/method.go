package page

import (
	"fmt"
	"slices"

	"headhours/report"
	"headhours/timing/words"
)

// method is the formulas in words, with their sources.
func method(w report.Whole) []pagePart {
	confidence := words.Percent(w.Compare.Confidence, 4)
	return []pagePart{{Fold: "The formulas in words, with their sources", Parts: []pagePart{{Terms: slices.Concat([]term{
		{"A reading", "Basic time = time without pauses × people × pace in percent / 100 (International Labour Office, Introduction to Work Study, 4th edition)."},
		{"A step", "Time = setup time × setups + unit time × count, fitted by weighted least squares. Readings of larger counts weigh less where there are enough of them to show that they vary more. " +
			"Where counts are alike (the largest count a setup below 1.5 times the smallest) all of the time is taken as unit time, and ranges reach to all of it being setup."},
		{"A judged step", "Mean = (low + 4 × likely + high) / 6, standard deviation = (high − low) / 6 (PERT: Malcolm, Roseboom, Clark and Fazar, 1959)."},
		{"A spread that is lent", "A step with fewer than three degrees of freedom is lent what it lacks to three: of the squared coefficients of variation of all steps, weighted by what each tells of others, and of an assumption of ours, that handwork varies by a fifth when it is done again, which counts for 8 degrees of freedom. What is lent is in doubt in all steps alike."},
		{"Grows and workers", "Readings of one grow, or of one worker, may be slow in all steps by a common factor. Its variance is found from the residuals that steps have in common (a method of moments, as Henderson's third: Searle, Casella and McCulloch, Variance Components, 1992), without a test, and every range has its part. Beside two grows alone it is assumed that grows differ by about 7 %."},
		{"A form that was left", "Where setup and unit time fitted together gave one below nothing it is left out of the answer; the range is that of both, stretched to hold the answer, and no time's range is below 0."},
		countsTerm(w),
		{"A total", "The sum over the steps of setup time × setups + unit time × count, × (1 + allowance). Its variance is the sum of the steps' variances, its degrees of freedom are those of Welch and Satterthwaite (Satterthwaite 1946, Welch 1947; JCGM 100:2008, G.4.1), and " +
			confidence + " is the confidence of its range by Student's t."},
		{"A difference", "What two ways share cancels exactly, so a difference can be surer than either total. A difference whose range reaches zero is called no clear difference."},
		{"A break-even", "The heads at which the difference is zero. Its range is Fieller's set for the ratio of two uncertain numbers (Fieller, 1954): it may be a range, all but a range, or every number of heads."},
		{"The next grow", "The range of the mean, with the scatter of one doing of each visit added."},
		{"A reading that stands out", "Its externally studentised residual is less likely than 5 % after Bonferroni's correction for the number of readings (Cook and Weisberg, 1982)."},
		{"A cost", "Hours × wage × (1 + on-costs), and supplies: price × count / uses, and space: square metres × days × price. Its range is that of the labour."},
		{"A return", "What the heads of a grow sell for, less supplies and space, for each hour of work."},
	}, seasonTerms(w), []term{
		{"A saving", "What a change takes off the setup and unit times of its step, its factors taken as exact. Outlay comes back after outlay / (hours saved a head × cost of an hour) heads."},
		sureTerm(w),
		{"What to time next", "First what was not timed, then what varies by an unknown amount, then what adds most to the range."},
		{"What is taken for granted", "Readings are independent of each other but for what is said of grows and workers, counts and losses are exact, and a step is the same work wherever it is done."},
	})}}}}
}

// again is what this was worked out from.
func again(w report.Whole) []pagePart {
	var files []term
	for _, f := range w.Files {
		files = append(files, term{fmt.Sprintf("%s, %s", words.Show(f.Name), words.Many(f.Readings, "reading")), "SHA-256 " + f.SHA256})
	}
	return []pagePart{
		{Fold: "Settings and files", Parts: []pagePart{
			{Tables: []report.Table{report.SettingsTable(w.Settings)}},
			{Title: "Files", Terms: files},
		}},
		{Answer: []string{"The same files, settings and version of headhours give this page again, byte for byte. The same figures in full, for a spreadsheet or a program, are written by headhours report as CSV or JSON."}},
	}
}
