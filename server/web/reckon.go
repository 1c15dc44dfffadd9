package web

import (
	"bytes"
	"io"
	"net/http"

	"sinkside/calc/reckoning/library"
	"sinkside/server/answer"
	"sinkside/sync/jsontext"
)

func listReckonings(w http.ResponseWriter, _ *http.Request) {
	answer.Text(w, http.StatusOK, library.All().Append(nil))
}

// reckon answers POST /api/reckon/{name}. Inputs that cannot be reckoned with are answered with
// 422 and a problem for each field.
func reckon(w http.ResponseWriter, r *http.Request) error {
	if _, ok := library.All().Find(r.PathValue("name")); !ok {
		return faultNoReckoning
	}
	in, err := io.ReadAll(r.Body)
	if err != nil {
		return bodyFault(err)
	}
	in = bytes.TrimSpace(in)
	if err := jsontext.Valid(in); err != nil {
		return answer.BadJSON.Because(err)
	}
	out, ok := library.All().Answer(nil, r.PathValue("name"), in)
	if ok {
		answer.Text(w, http.StatusOK, out)
		return nil
	}
	said := `{"code":"bad-input","say":"These inputs cannot be reckoned with; the problems say which and why.",`
	answer.Text(w, http.StatusUnprocessableEntity, append([]byte(said), out[1:]...))
	return nil
}
