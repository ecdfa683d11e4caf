package simplex

// NewSparse and NewDense are New with factors or with a dense inverse, however many rows there are.
func NewSparse(b []float64) *LP { return with(b, true) }

// NewDense see NewSparse.
func NewDense(b []float64) *LP { return with(b, false) }
