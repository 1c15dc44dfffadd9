// Package hours accounts for the time and the money of a treatment: the hours of
// its log by kind of step, and an estimate of a new one from past ones.
package hours

import "sinkside/calc/reckoning"

const family = "Time and money"

var (
	medians  = reckoning.Source{Name: "median and quartiles", Where: "Textbook statistics. The middle half of the past figures lies between the quartiles; of fewer than five the least and the greatest are shown.", Mark: reckoning.Memory}
	planning = reckoning.Source{Name: "what a plan holds", Where: "American Institute for Conservation, commentary to the guidelines for practice, on treatment plans: written course, materials, time and cost, with the owner's written approval, and fresh approval for significant changes.", Mark: reckoning.Read}
)

// money is to how many figures an amount of money is shown.
const money = 6

// mostRows is how many rows a table here may have.
const mostRows = 60

// took is how long a step took. It is one word and one unit wherever it is asked, so
// that a row can be copied from one form to the other. Seconds are there for what a
// log holds; days and longer are not, since a day of 24 hours is no day of work.
func took() reckoning.Input {
	return reckoning.Quantity("took", "It took", "h", 0, 10000).In("h", "min", "s")
}

// people is how many were at it.
func people() reckoning.Input { return reckoning.Count("people", "People at it", 1, 20).Usually("1") }
