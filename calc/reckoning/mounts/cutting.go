package mounts

import (
	"errors"
	"strconv"

	"sinkside/calc/packing"
	"sinkside/calc/reckoning"
	"sinkside/calc/unit"
)

// mostDrawn is how many sheets are drawn.
const mostDrawn = 8

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
		Results: []reckoning.ResultSpec{{Name: "sheets", Title: "Sheets"}, {Name: "used", Title: "Used of the last, or of the cloth", Unit: "mm"}, {Name: "waste", Title: "Waste", Unit: "%"}, {Name: "cut", Title: "All pieces together", Unit: "m²"}},
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
	l, err := packing.Pack(pieces, stockOf(s))
	var large packing.TooLarge
	switch {
	case errors.As(err, &large):
		r := s.Rows("pieces")[row[large.Piece]]
		say := "row " + strconv.Itoa(row[large.Piece]+1) + ", " + r.Words("name") + " of " + size(r.Base("width"), r.Base("height")) + ", is larger than the stock of " + size(s.Base("stock_width"), s.Base("stock_length"))
		if large.ByGrain {
			say += "; turned, against its grain, it would fit"
		}
		return l, s.Cannot("pieces", "", say+".")
	case err != nil:
		return l, s.Cannot("pieces", "", err.Error()+".")
	case s.Choice("stock") == "cloth" && l.Sheets > 1:
		return l, s.Cannot("stock_length", "", "this length of cloth does not take them all: there would have to be "+strconv.Itoa(l.Sheets)+" of it.")
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
	out.Add("cut", areaOf(l))
	return out, nil
}

// areaOf is the area of all pieces, m².
func areaOf(l packing.Layout) float64 {
	sum := 0.0
	for _, p := range l.Placed {
		sum += float64(p.Width*p.Length) / 1e6
	}
	return sum
}

func explainCutting(s *reckoning.Sheet, out *reckoning.Result) {
	l, _ := layoutOf(s)
	stock := stockOf(s)
	_, row := piecesOf(s)
	rows := s.Rows("pieces")
	r := rulerOf(s, "stock_width")
	table := out.Table("Where each piece lies, "+r.String()+" from the upper left of the stock", "Sheet", "Piece", "Across", "Along", "Size as it lies")
	for _, p := range l.Placed {
		name := rows[row[p.Piece]].Words("name")
		if p.Turned {
			name += ", turned"
		}
		table.Row(strconv.Itoa(p.Sheet+1), name, r.at(p.X), r.at(p.Y), r.size(p.Width, p.Length))
	}
	for i := range min(l.Sheets, mostDrawn) {
		title := "Sheet " + strconv.Itoa(i+1)
		end := stock.Length
		if s.Choice("stock") == "cloth" {
			title, end = "The cloth, as far as it is used", l.Used
		}
		pic := out.Picture(title, unit.Length(stock.Width), unit.Length(end))
		for _, p := range l.Placed {
			if p.Sheet == i {
				x, y := min(p.X+p.Width, stock.Width), min(p.Y+p.Length, end)
				pic.Shape(rows[row[p.Piece]].Words("name"), true, p.X, p.Y, x, p.Y, x, y, p.X, y)
			}
		}
	}
	out.Work("Several orders and rules were tried; the layout with the fewest sheets, then the shortest last one, is kept. A better one may exist.", "", strconv.Itoa(len(l.Placed))+" pieces on "+reckoning.Counted(l.Sheets, "sheet")+", "+mm(l.Used)+" of the last", empties.Name)
	out.Work("Waste: what no piece takes, of whole sheets and of the last as far as it is used.", "1 - pieces ÷ stock", reckoning.InUnit("m²", areaOf(l))+": "+reckoning.InUnit("%", l.Waste(stock)), reckoning.Arithmetic.Name)
	blades(out)
	out.Object("Measure the stock itself: sheets come a few millimetres off, cloth narrower within its selvedges than it is sold. Cloth is washed before it is cut.", reckoning.CommonPractice)
}
