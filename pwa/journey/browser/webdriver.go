package browser

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"net/http"
	"time"
)

// patient gives a driver time for its own waiting, and ends when it hangs.
var patient = &http.Client{Timeout: Patience + 10*time.Second}

// call sends one W3C WebDriver command and returns the value of the answer.
func call(method, url string, body any) (json.RawMessage, error) {
	var r io.Reader
	if body != nil {
		b, err := json.Marshal(body)
		if err != nil {
			return nil, err
		}
		r = bytes.NewReader(b)
	}
	req, err := http.NewRequest(method, url, r)
	if err != nil {
		return nil, err
	}
	req.Header.Set("Content-Type", "application/json")
	res, err := patient.Do(req)
	if err != nil {
		return nil, err
	}
	defer res.Body.Close()
	var v struct{ Value json.RawMessage }
	if err := json.NewDecoder(res.Body).Decode(&v); err != nil {
		return nil, fmt.Errorf("%s %s: %s: %w", method, url, res.Status, err)
	}
	if res.StatusCode != http.StatusOK {
		return nil, fmt.Errorf("%s %s: %s: %s", method, url, res.Status, v.Value)
	}
	return v.Value, nil
}
