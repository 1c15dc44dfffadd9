package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"time"

	"github.com/rs/zerolog"

	"sinkside/pwa"
	"sinkside/server/pair"
	"sinkside/server/pair/announce"
	"sinkside/server/studio"
	"sinkside/server/summary"
	"sinkside/server/web"
	"sinkside/store"
	"sinkside/sync/hub"
	"sinkside/sync/journal"
)

// house is a running server: what it opened, in the order in which it closes it again.
type house struct {
	plan    plan
	log     zerolog.Logger
	desk    *desk
	lines   *summary.Maker
	hub     *hub.Hub
	machine *studio.Machine
	addrs   *announce.Addresses
	voice   *announce.Voice
	who     identity
	command *pair.Command
	web     *web.Server
	site    pair.Site

	local, tls, trust *door // tls and trust are nil when off
}

// openHouse opens the store, makes everything that stands on it and takes the ports, so that
// whatever can fail has failed before anybody is told an address.
func openHouse(ctx context.Context, p plan, log zerolog.Logger) (*house, error) {
	h := &house{plan: p, log: log}
	for _, step := range []func(context.Context) error{h.openStore, h.openHub, h.openDoors, h.openGate} {
		if err := step(ctx); err != nil {
			return nil, firstOf(startFault(p.Data, err), h.close())
		}
	}
	return h, nil
}

// startFault says what to do about a disk that is full when the server starts: it must be able to write.
func startFault(dir string, err error) error {
	if !errors.Is(err, store.ErrFull) {
		return err
	}
	return &failure{fmt.Sprintf("the disk that holds the data folder %s is full, and a server must be able to write. Make room there and start it again; nothing recorded is lost. (%v)", dir, err), err}
}

func (h *house) openStore(context.Context) (err error) {
	h.desk, err = openDesk(h.plan.Data, func(sentence string) { h.log.Warn().Str("about", "store").Msg(sentence) })
	return err
}

// openHub makes what keeps entries and passes them on.
func (h *house) openHub(context.Context) (err error) {
	if h.lines, err = summary.NewMaker(h.desk.store); err != nil {
		return err
	}
	key, err := studio.ReceiptKey(h.desk.store)
	if err != nil {
		return err
	}
	h.hub, err = hub.New(hub.Config{Store: h.desk.store, Key: key, Summarise: h.lines.Summarise, Report: h.report})
	if err != nil {
		return err
	}
	gone, err := h.lines.Gone()
	if err != nil {
		return err
	}
	h.forget(gone)
	h.machine, err = studio.Open(h.desk.store, h.intake(), time.Now)
	return err
}

// forget tells devices of sample treatments that are gone. What is not told because the disk
// refuses is told at the next start.
func (h *house) forget(jobs []journal.ID) {
	for _, job := range jobs {
		h.hub.Forget(job)
		if err := h.lines.Forget(job); err != nil {
			h.log.Error().Err(err).Msg("a removed sample treatment will be told of again")
		}
	}
}

// report logs what the hub has to say. Devices appear by id.
func (h *house) report(e hub.Event) {
	line := h.log.Info()
	if e.Err != nil {
		line = h.log.Error().Err(e.Err)
	}
	if e.Dev != (journal.ID{}) {
		line = line.Stringer("device", e.Dev)
	}
	line.Msg(e.What)
}

// intake stores through the hub, so that every device hears of it.
func (h *house) intake() studio.Intake { return intake{h.hub, h.desk} }

type intake struct {
	hub  *hub.Hub
	desk *desk
}

func (i intake) Append(es []journal.Entry) ([]journal.Verdict, error) { return i.hub.Add(es) }
func (i intake) KeepAside(es []journal.Entry) error                   { return i.desk.store.KeepAside(es) }

// openGate makes the HTTP side. The command file is written last: who finds it finds a server.
func (h *house) openGate(ctx context.Context) error {
	h.site = h.where()
	files, err := web.NewStatic(pwa.Files())
	if err != nil {
		return err
	}
	if !pwa.Built() {
		h.log.Warn().Msg("this binary holds no web app: build it with make, or go run ./pwa/build before go build")
	}
	if h.command, err = pair.WriteCommand(h.plan.Data, h.local.here()); err != nil {
		return err
	}
	gate, err := pair.New(pair.Config{Studio: h.plan.Studio, Devices: h.desk.devices, Site: h.site, Proxy: h.plan.proxy,
		CommandToken: h.command.Token, Log: h.log})
	if err != nil {
		return err
	}
	h.web = web.New(web.Config{Log: h.log, Files: files, Records: h.desk.store, Days: h.lines, Blobs: h.desk.store, Importer: h.machine,
		Sample: h.sampling(), Hub: h.hub, Gate: gate, DeviceName: h.deviceName})
	return nil
}

func (h *house) sampling() sampling {
	return sampling{store: h.desk.store, intake: h.intake(), removed: h.forget}
}

// deviceName is what a device is or was called here.
func (h *house) deviceName(id journal.ID) (string, bool) {
	for _, d := range h.desk.devices.List() {
		if d.ID == id {
			return d.Label, true
		}
	}
	return "", false
}

// run answers until ctx ends, then closes everything in order.
func (h *house) run(ctx context.Context, out io.Writer) error {
	if err := h.addSampleOnce(); err != nil {
		return firstOf(startFault(h.plan.Data, err), h.close())
	}
	failed := make(chan error, 3)
	if err := h.openUp(failed); err != nil {
		return firstOf(err, h.close())
	}
	background, stop := context.WithCancel(context.Background())
	registered := make(chan error, 1)
	go func() { registered <- h.desk.devices.Run(background) }()
	err := h.greet(out)
	if err == nil {
		h.log.Info().Str("version", versionText()).Msg("ready")
		select {
		case <-ctx.Done():
			h.log.Info().Msg("stopping")
		case err = <-failed:
		}
	}
	stop()
	return firstOf(startFault(h.plan.Data, err), unlessFull(<-registered), h.close())
}

// addSampleOnce puts the sample into a new store: one that holds nothing and never held it.
func (h *house) addSampleOnce() error {
	const bucket, key = "studio", "sample"
	jobs, err := h.desk.store.Jobs()
	if !h.plan.Sample || err != nil || len(jobs) > 0 {
		return err
	}
	if _, had, err := h.desk.store.Get(bucket, key); had || err != nil {
		return err
	}
	if _, _, err = h.sampling().Add(); err != nil {
		return err
	}
	return h.desk.store.Put(bucket, key, []byte(time.Now().Format(time.RFC3339)))
}

// patience is how long requests under way may take to finish.
const patience = 5 * time.Second

// close undoes what was opened, the last first. Sessions end before the store does, so that
// everything acknowledged is in it.
func (h *house) close() error {
	ctx, cancel := context.WithTimeout(context.Background(), patience)
	defer cancel()
	var errs []error
	if h.command != nil {
		errs = append(errs, h.command.Remove())
	}
	if h.voice != nil {
		errs = append(errs, h.voice.Close())
	}
	if h.hub != nil {
		h.hub.Close()
	}
	for _, d := range []*door{h.local, h.tls, h.trust} {
		errs = append(errs, d.close(ctx))
	}
	if h.web != nil {
		h.web.Wait()
	}
	if h.desk != nil {
		errs = append(errs, h.desk.close())
	}
	return errors.Join(errs...)
}
