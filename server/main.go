// Command server runs the service: it opens the database, brings it up to date, and answers HTTP until it is told to
// stop.
package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"log/slog"
	"net"
	"net/http"
	"os"
	"os/signal"
	"syscall"
	"time"
	_ "time/tzdata" // zones on machines that have none

	"github.com/shopspring/decimal"

	"ribband/server/internal/api"
	"ribband/server/internal/app"
	"ribband/server/internal/store"
	"ribband/server/internal/web"
)

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	if err := run(ctx, os.Args[1:], os.Getenv, os.Stdout); err != nil {
		fmt.Fprintln(os.Stderr, "ribband:", err)
		os.Exit(1)
	}
}

// Bounds of a connection: slow headers, slow bodies and idle connections are given up.
const (
	headerPatience = 5 * time.Second
	readPatience   = 30 * time.Second
	writePatience  = 60 * time.Second
	idlePatience   = 120 * time.Second
	longestHeader  = 64 << 10
	stopPatience   = 10 * time.Second
)

// run is the whole program: it returns when ctx ends or the server cannot go on. Everything that people are to read
// goes to out; the log follows it there.
func run(ctx context.Context, args []string, getenv func(string) string, out io.Writer) error {
	// Exponents beyond these mean nothing in a yard and cost time in arithmetic; set before any number is read.
	decimal.MaxDecodeExponent = 30
	s, err := settingsOf(args, getenv, out)
	if errors.Is(err, errHelp) {
		return nil
	}
	if err != nil {
		return err
	}
	// The address first: a busy port is found before a database is made.
	var listen net.ListenConfig
	listener, err := listen.Listen(ctx, "tcp", s.listen)
	if err != nil {
		return listenFault(s.listen, err)
	}
	defer func() { _ = listener.Close() }() // closed already when the server stopped as told
	kept, err := store.Open(ctx, s.database)
	if err != nil {
		return err
	}
	service := app.New(kept, time.Now, version())
	err = serve(ctx, listener, service, kept, s, out)
	return errors.Join(err, kept.Close())
}

// serve sets the yard up, says where it is, and answers until ctx ends.
func serve(ctx context.Context, listener net.Listener, service *app.App, kept *store.Store, s settings, out io.Writer) error {
	address, err := web.AddressOf(s.public, listener.Addr().String())
	if err != nil {
		return err
	}
	if s.public == "" {
		address.Base = "http://" + reached(listener.Addr().String())
	}
	say(out, "ribband %s, database %s\n", version(), kept.Place())
	if err := setUp(ctx, service, s.demo, address, out); err != nil {
		return err
	}
	log := slog.New(slog.NewTextHandler(out, &slog.HandlerOptions{Level: s.level}))
	var settings []api.Setting
	if address.SignIn() {
		settings = append(settings, api.Links(address.EnterLink))
	}
	operations, err := api.New(service, log, settings...)
	if err != nil {
		return err
	}
	pages, err := web.New(service, kept, address, time.Now, log)
	if err != nil {
		return err
	}
	server := &http.Server{
		Handler: api.Plainly(pages.Beside(operations), operations), ReadHeaderTimeout: headerPatience, ReadTimeout: readPatience, WriteTimeout: writePatience,
		IdleTimeout: idlePatience, MaxHeaderBytes: longestHeader, ErrorLog: slog.NewLogLogger(log.Handler(), slog.LevelWarn),
	}
	if !address.SignIn() {
		say(out, "nobody can sign in to the pages: beyond this machine that needs https. Set a server that speaks it in front of this one, and say its address with -public\n")
	}
	say(out, "listening on http://%s\n", reached(listener.Addr().String()))
	ended := make(chan error, 1)
	go func() { ended <- server.Serve(listener) }()
	select {
	case err := <-ended:
		return err
	case <-ctx.Done():
	}
	say(out, "stopping\n")
	last, cancel := context.WithTimeout(context.WithoutCancel(ctx), stopPatience)
	defer cancel()
	if err := server.Shutdown(last); err != nil {
		return fmt.Errorf("requests were still running after %s: %w", stopPatience, err)
	}
	return nil
}

// say prints for whoever watches. A screen that has gone is no reason to stop.
func say(out io.Writer, format string, args ...any) { _, _ = fmt.Fprintf(out, format, args...) }
