package page

import (
	"strings"

	"headhours/timing/study"
	"headhours/timing/words"
)

// hazards are what to mind in steps that are marked with one. Where no body is
// named it is common practice, no source.
var hazards = []struct {
	hazard study.Hazard
	title  string
	lines  []string
}{
	{study.Lifting, "Lifting and carrying", []string{
		"Carry half as much twice. A litre of water weighs a kilogram.",
		"The lifting equation of NIOSH, the US National Institute for Occupational Safety and Health, starts from 23 kg and takes off for each centimetre away from the body, low or high, and for each turn. " +
			"By it a can of 20 kg, held 35 cm in front of the ankles and lifted from 30 cm to 75 cm, is 1.6 times what is recommended: 12.4 kg. Carrying is not in it.",
	}},
	{study.FibreDust, "Dust of mineral wool", []string{
		"It makes skin, eyes and throat itch. OSHA, the US Occupational Safety and Health Administration, gives its cancer class as \"not classifiable\".",
		"Wet it before it is handled, wear gloves, and do not tear it dry.",
	}},
	{study.Concentrates, "Acid, alkali and feed concentrates", []string{
		"Gloves and goggles. Acid into water, never water into acid (Resh, Hydroponic Food Production).",
		"Never mix concentrates A and B undiluted. The label and the safety data sheet say the rest.",
	}},
	{study.Blades, "Blades", []string{
		"Cut away from the hand, on a floor that is not slippery; a knife that is put down has a place. No reading is worth a cut: void it and go on slowly.",
	}},
	{study.WetElectrics, "Mains near water", []string{
		"Plug out before reaching into the water. Mains near water need a residual-current device.",
		"What may be wired, and by whom, is for your electrical code and a licensed electrician.",
	}},
	{study.Repetition, "The same movement for long", []string{
		"Take turns with work of another kind, and keep what is reached for within 43 cm (17 inches) (NIOSH publication 2001-111). Heat calls for more breaks.",
		"Aching that stays is for a doctor, not for a quicker method.",
	}},
	{study.Hygiene, "Hands and produce", []string{
		"Wash hands before work, before gloves, after the toilet and after every break (21 CFR 112.32, in the United States; follow your own authority's rule).",
		"It is timed so that it is planned for. It is never suggested as a saving.",
	}},
}

// fairness is for whoever times people, themselves included.
var fairness = []string{
	"Numbers are no reason to hurry. A better tool or place saves minutes; haste takes them back in losses and injuries.",
	"Tell people that they are timed and what for; agree what is kept and who sees it; film hands and not faces; erase on request.",
	"Compare ways, never workers, and set no pace from the quickest reading. The range beside each number is there because work varies.",
	"Leave rest in. Short breaks of 5 to 20 minutes are paid time in the United States (29 CFR 785.18); an allowance never makes up for unsafe work.",
	"The law of pay differs from place to place; nothing here is legal advice.",
}

// care is the cautions for the hazards that steps of the study are marked with,
// and those that hold always.
func care(s study.Study) []pagePart {
	parts := []pagePart{{Answer: []string{
		"Your local codes, the law where you are and licensed practice go before anything that is said here.",
	}}}
	var marked []string
	var more []pagePart
	for _, h := range hazards {
		var steps []string
		for _, step := range s.Steps {
			for _, mark := range step.Hazards {
				if mark == h.hazard {
					steps = append(steps, words.Show(step.Name))
				}
			}
		}
		if len(steps) > 0 {
			marked = append(marked, h.title+": "+strings.Join(steps, ", ")+".")
			more = append(more, pagePart{Title: h.title, Answer: []string{strings.Join(h.lines, "\n")}})
		}
	}
	if more != nil {
		parts = append(parts, pagePart{Answer: []string{strings.Join(marked, "\n")}}, pagePart{Fold: "What to mind in these steps", Parts: more})
	}
	return append(parts, pagePart{Fold: "Pace, and fairness to who is timed", Parts: []pagePart{{Answer: []string{strings.Join(fairness, "\n")}}}})
}
