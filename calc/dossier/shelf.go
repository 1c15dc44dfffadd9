package dossier

// Shelf is what the studio's own log says: what people here are called, and
// what they work with. Each kind in the order in which it was first put there;
// what was struck is not on it.
type Shelf struct {
	Initials    []string     `json:"initials"`
	Liquids     []string     `json:"liquids"`
	Batches     []Batch      `json:"batches"`
	Waters      []Water      `json:"waters"`
	Instruments []Instrument `json:"instruments"`
}

// Batch is a solution that was made up. Numbers are as typed; empty is not said.
type Batch struct {
	Entry     string `json:"entry"`
	Name      string `json:"name"`       // as it stands on the bottle and as a bath's liquid
	Product   string `json:"product"`    // chemical type, never a brand
	Charge    string `json:"charge"`     // anionic, nonionic, amphoteric, cationic or none
	Lot       string `json:"lot"`        //
	ActivePct string `json:"active_pct"` // active content of the product, % w/w
	CMC       string `json:"cmc_g_l"`    // critical micelle concentration, g/L; empty: unknown
	Target    string `json:"target"`     // number
	Unit      string `json:"unit"`       // of Target: "g/L", "% w/v" or "× CMC"
	Litres    string `json:"litres"`
	ProductG  string `json:"product_g"` // weighed in
	Water     string `json:"water"`     // name of the water
	PH        string `json:"ph"`
	By        string `json:"by"`
	MadeMS    int64  `json:"made_ms"`
	ExpiresMS *int64 `json:"expires_ms"`
	Gone      bool   `json:"gone"` // used up or discarded
}

// Water is a water that the studio washes with, as last measured.
type Water struct {
	Entry        string `json:"entry"`
	Name         string `json:"name"`
	Source       string `json:"source"` // deionised, distilled, tap or other
	Conductivity string `json:"conductivity"`
	LiquorC      string `json:"liquor_c"`    // at the meter
	Compensated  bool   `json:"compensated"` // the meter compensated by itself
	PH           string `json:"ph"`
	Hardness     string `json:"hardness"`
	HardnessUnit string `json:"hardness_unit"`
	StockL       string `json:"stock_l"`  // there now
	MakeLH       string `json:"make_l_h"` // how fast more is made
	By           string `json:"by"`
	AtMS         int64  `json:"at_ms"`
}

// Instrument is a meter or a balance.
type Instrument struct {
	Entry        string   `json:"entry"`
	Name         string   `json:"name"`
	Measures     []string `json:"measures"`      // quantities
	Compensates  bool     `json:"compensates"`   // gives conductivity at 25 °C by itself
	CalibratedMS *int64   `json:"calibrated_ms"` // last known
	Note         string   `json:"note"`
}
