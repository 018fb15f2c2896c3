package answer

import "headhours/timing/study"

// gives tells what a grow gives, in kilograms and in units.
func (c *GrowCost) gives(s study.Study, w study.Workflow, heads float64) {
	c.Gives = harvest(s, w, heads).inHours(study.Known(c.Hours), study.Maybe{}, study.Maybe{})
	c.Kg, c.Unit, c.Units = c.Gives.Kg, c.Gives.Unit, c.Gives.Units
	if w.Crop != "" {
		c.Crop = &w.Crop
	}
}
