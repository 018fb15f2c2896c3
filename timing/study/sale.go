package study

// Cut is what each plant that is alive on a day gives when it is cut then.
type Cut struct {
	Day int
	Kg  float64
}

// Sale is how a crop is sold: by so many heads or so many kilograms a unit.
type Sale struct {
	Unit  string  // what is sold: head, bag
	Heads float64 // in one unit; 0 where it is sold by weight
	Kg    float64 // in one unit; 0 where it is sold by heads
	Price Maybe   // of one unit, in the study's currency
	Share float64 // of what is harvested that is sold
}

// Units are how many units heads and kilograms make.
func (s Sale) Units(heads float64, kg Maybe) Maybe {
	if s.Kg > 0 {
		return kg.Times(1 / s.Kg)
	}
	return Known(heads / s.Heads)
}

// Sold is the part of units that is sold.
func (s Sale) Sold(units Maybe) Maybe { return units.Times(s.Share) }

// Revenue is what units bring that are sold.
func (s Sale) Revenue(sold Maybe) Maybe { return s.Price.By(sold) }
