package mounts

import (
	"errors"
	"slices"
	"strconv"

	"sinkside/calc/packing"
	"sinkside/calc/reckoning"
	"sinkside/calc/reckoning/measured"
	"sinkside/calc/size"
	"sinkside/calc/unit"
)

// mostDrawn is how many pictures of sheets a person is asked to scroll through; sheets
// that are alike share one.
const mostDrawn = 20

// Cutting lays pieces out on sheets or on a width of cloth.
func Cutting() *reckoning.Reckoning {
	return (&reckoning.Reckoning{
		Name: "cutting", Title: "Cutting layout", Asks: "How do I cut these pieces out of my sheets or this width of cloth?", Family: family,
		Inputs: []reckoning.Input{
			reckoning.Choose("stock", "Cut from", "sheets", "sheets of one size", "cloth", "a width of cloth"),
			length("stock_width", "Width of the stock", 20, 20000).Note("Of cloth: between the selvedges."), length("stock_length", "Length of the stock", 20, 100000).Note("Grain runs along it."),
			length("gap", "Left between pieces", 0, 100).Usually("0").Note("For the saw or the seam."),
			reckoning.Rows("pieces", "Pieces", 40,
				reckoning.Text("name", "Name"), length("width", "Width", 1, 20000), length("height", "Height", 1, 100000), reckoning.Count("count", "How many", 1, 100).Usually("1"),
				reckoning.Choose("grain", "Grain", "along", "along its height", "across", "along its width", "free", "free"),
			),
		},
		Results: []reckoning.ResultSpec{{Name: "sheets", Title: "Sheets"}, {Name: "used", Title: "Length used, of the last sheet or of the cloth", Unit: "mm", Digits: 5}, {Name: "waste", Title: "Waste", Unit: "%"}, {Name: "cut", Title: "All pieces together", Unit: "m²"}},
		Sources: reckoning.From(&empties, &reckoning.OurChoice, &reckoning.CommonPractice, &reckoning.Arithmetic), Usual: reckoning.OurChoice.Name,
		Example: `{"stock":"sheets","stock_width":"80 cm","stock_length":"120 cm","gap":"3","pieces":[{"name":"board, flag","width":"38 cm","height":"48 cm","count":2,"grain":"free"},{"name":"strip","width":"60","height":"900","count":3,"grain":"along"},{"name":"corner","width":"120","height":"120","count":4,"grain":"free"}]}`,
		Prepare: func(s *reckoning.Sheet) {
			if pieces, _ := piecesOf(s); len(pieces) > packing.Most {
				s.Fault("pieces", "they come to "+strconv.Itoa(len(pieces))+", and "+strconv.Itoa(packing.Most)+" at most are laid out at once.")
			}
		},
		Figures: cuttingFigures, Explain: explainCutting,
	}).Ready()
}

// piecesOf are the pieces of the form one by one, with the row that each is of.
func piecesOf(s *reckoning.Sheet) (pieces []packing.Piece, row []int) {
	for i, r := range s.Rows("pieces") {
		grain := packing.Free
		switch r.Choice("grain") {
		case "along":
			grain = packing.Along
		case "across":
			grain = packing.Across
		}
		for range int(r.Base("count")) {
			pieces = append(pieces, packing.Piece{Width: r.Base("width"), Height: r.Base("height"), Grain: grain})
			row = append(row, i)
		}
	}
	return pieces, row
}

func stockOf(s *reckoning.Sheet) packing.Stock {
	return packing.Stock{Width: s.Base("stock_width"), Length: s.Base("stock_length"), Gap: s.Base("gap")}
}

func layoutOf(s *reckoning.Sheet) (packing.Layout, *reckoning.Problem) {
	pieces, row := piecesOf(s)
	stock := stockOf(s)
	l, err := packing.Pack(pieces, stock)
	var large packing.TooLarge
	switch {
	case errors.As(err, &large):
		return l, tooLarge(s, row[large.Piece], large.ByGrain)
	case err != nil:
		return l, s.Cannot("pieces", "", err.Error()+".")
	case s.Choice("stock") == "cloth" && l.Sheets > 1:
		return onLongCloth(s, pieces, stock)
	}
	return l, nil
}

// tooLarge says of a row, counted from 0, that its piece fits the stock no way.
func tooLarge(s *reckoning.Sheet, row int, byGrain bool) *reckoning.Problem {
	piece, of := s.Rows("pieces")[row], measured.TypedRuler(s, "stock_width")
	is := measured.TypedRuler(piece, "width")
	say := "row " + strconv.Itoa(row+1) + ", " + piece.Words("name") + " of " + is.BothSize(piece.Base("width"), piece.Base("height")) + ", is larger than the stock of " + of.BothSize(s.Base("stock_width"), s.Base("stock_length"))
	if byGrain {
		say += "; turned, against its grain, it would fit"
	}
	return s.Cannot("pieces", "", say+".")
}

// onLongCloth lays out on cloth without an end what the first try did not get onto one
// length of it: it may fit for all that, or how much is needed can be told.
func onLongCloth(s *reckoning.Sheet, pieces []packing.Piece, stock packing.Stock) (packing.Layout, *reckoning.Problem) {
	most := s.Allowed("stock_length").Max
	l, err := packing.Pack(pieces, packing.Stock{Width: stock.Width, Length: most, Gap: stock.Gap})
	r := measured.TypedRuler(s, "stock_length")
	switch {
	case err != nil || l.Sheets > 1:
		return l, s.Cannot("stock_length", "", "these pieces take more than "+r.Both(most)+" of this width.")
	case l.Used > stock.Length+near:
		return l, s.Cannot("stock_length", "at least "+r.AtLeast(l.Used), "this length of cloth does not take them all; laid out as here they take "+r.Both(l.Used)+" of it.")
	}
	return l, nil
}

func cuttingFigures(s *reckoning.Sheet) (reckoning.Figures, *reckoning.Problem) {
	l, p := layoutOf(s)
	if p != nil {
		return nil, p
	}
	var out reckoning.Figures
	if s.Choice("stock") == "sheets" {
		out.Add("sheets", float64(l.Sheets))
	}
	out.Add("used", l.Used)
	out.Add("waste", l.Waste(stockOf(s)))
	out.Add("cut", l.Cut()/1e6)
	return out, nil
}

func explainCutting(s *reckoning.Sheet, out *reckoning.Result) {
	l, _ := layoutOf(s)
	stock := stockOf(s)
	_, row := piecesOf(s)
	rows := s.Rows("pieces")
	r := measured.Ruler(s, "stock_width")
	table := out.Table("Where each piece lies, "+r.String()+" from the upper left of the stock", "Sheet", "Piece", "Across", "Along", "Size as it lies")
	for _, p := range l.Placed {
		name := rows[row[p.Piece]].Words("name")
		if p.Turned {
			name += ", turned"
		}
		table.Row(strconv.Itoa(p.Sheet+1), name, r.At(p.X), r.At(p.Y), r.Size(p.Width, p.Length))
	}
	drawSheets(s, out, l)
	out.Work("Several orders and rules were tried; the layout with the fewest sheets, then the shortest last one, is kept. A better one may exist.", "", reckoning.Counted(len(l.Placed), "piece")+" on "+onWhat(s, l, r.Both(l.Used)), empties.Name)
	out.Work("Waste: what no piece takes, of whole sheets and of the last as far as it is used.", "1 - pieces ÷ stock", "1 - "+square(r, l.Cut()/1e6)+" ÷ "+square(r, l.Taken(stock)/1e6)+" = "+reckoning.InUnit("%", l.Waste(stock)), reckoning.Arithmetic.Name)
	blades(out)
	out.Object("Measure the stock itself: sheets come a few millimetres off, cloth narrower within its selvedges than it is sold. Cloth is washed before it is cut.", reckoning.CommonPractice)
}

// onWhat says how much of the stock the pieces take.
func onWhat(s *reckoning.Sheet, l packing.Layout, used string) string {
	switch {
	case s.Choice("stock") == "cloth":
		return used + " of the cloth"
	case l.Sheets == 1:
		return used + " of 1 sheet"
	}
	return strconv.Itoa(l.Sheets) + " sheets, " + used + " of the last"
}

// square writes an area of so many square metres.
func square(r size.Ruler, m2 float64) string {
	if r.String() == "in" {
		return reckoning.InUnit("in²", m2)
	}
	return reckoning.InUnit("m²", m2)
}

// drawSheets draws each sheet, those that follow each other alike once, and says which
// are not drawn.
func drawSheets(s *reckoning.Sheet, out *reckoning.Result, l packing.Layout) {
	_, row := piecesOf(s)
	on := make([][]packing.Placed, l.Sheets)
	for _, p := range l.Placed {
		on[p.Sheet] = append(on[p.Sheet], p)
	}
	alike := func(a, b []packing.Placed) bool {
		return slices.EqualFunc(a, b, func(p, q packing.Placed) bool {
			return row[p.Piece] == row[q.Piece] && p.X == q.X && p.Y == q.Y && p.Width == q.Width && p.Length == q.Length
		})
	}
	for first := 0; first < l.Sheets; {
		last := first
		for last+1 < l.Sheets && alike(on[first], on[last+1]) {
			last++
		}
		if len(out.Pictures) == mostDrawn {
			out.Verdict("drawn", "Drawn", sheetsNamed(first, l.Sheets-1)+" not drawn. Where their pieces lie is in the table.")
			return
		}
		drawSheet(s, out, on[first], row, first, last, l.Used)
		first = last + 1
	}
}

func sheetsNamed(first, last int) string {
	if first == last {
		return "Sheet " + strconv.Itoa(first+1) + " is"
	}
	return "Sheets " + strconv.Itoa(first+1) + " to " + strconv.Itoa(last+1) + " are"
}

func drawSheet(s *reckoning.Sheet, out *reckoning.Result, placed []packing.Placed, row []int, first, last int, used float64) {
	stock := stockOf(s)
	title := "Sheet " + strconv.Itoa(first+1)
	if last > first {
		title = "Sheets " + strconv.Itoa(first+1) + " to " + strconv.Itoa(last+1) + ", all alike"
	}
	end := stock.Length
	if s.Choice("stock") == "cloth" {
		title, end = "The cloth, as far as it is used", used
	}
	pic := out.Picture(title, unit.Length(stock.Width), unit.Length(end))
	for _, p := range placed {
		x, y := min(p.X+p.Width, stock.Width), min(p.Y+p.Length, end)
		pic.Shape(s.Rows("pieces")[row[p.Piece]].Words("name"), true, p.X, p.Y, x, p.Y, x, y, p.X, y)
	}
}
