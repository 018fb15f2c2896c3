package answer

// CropComparison is the ways of working of one crop, which alone are compared.
type CropComparison struct {
	Crop string // "" of ways without one
	Comparison
}

// ByCrop is a comparison with the ways of each crop apart, in order of first mention:
// one part where the study names no crop.
func ByCrop(c Comparison) []CropComparison {
	gives := make([]Harvest, len(c.Workflows))
	for i, h := range c.Workflows {
		gives[i] = h.Gives
	}
	var parts []CropComparison
	for _, group := range crops(gives) {
		part := CropComparison{Crop: gives[group[0]].Crop, Comparison: c}
		part.Workflows, part.Pairs = nil, nil
		of := map[string]bool{}
		for _, i := range group {
			part.Workflows = append(part.Workflows, c.Workflows[i])
			of[c.Workflows[i].Workflow] = true
		}
		for _, p := range c.Pairs {
			if of[p.A] && of[p.B] {
				part.Pairs = append(part.Pairs, p)
			}
		}
		parts = append(parts, part)
	}
	return parts
}

// OfOneCrop are the pairs of ways that are of one crop.
func OfOneCrop(pairs []Pair) []Pair {
	of := []Pair{}
	for _, p := range pairs {
		if !p.OtherCrop {
			of = append(of, p)
		}
	}
	return of
}
