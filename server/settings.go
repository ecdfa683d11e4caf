package main

import (
	"cmp"
	"errors"
	"flag"
	"fmt"
	"io"
	"log/slog"
	"runtime/debug"
)

// settings is what whoever starts the server may choose.
type settings struct {
	listen   string
	public   string
	database string
	demo     bool
	level    slog.Level
}

// errHelp ends the program after it has told its settings.
var errHelp = errors.New("help")

// settingsOf reads the settings: flags first, then the environment, then what is usual.
func settingsOf(args []string, getenv func(string) string, out io.Writer) (settings, error) {
	s := settings{
		listen:   cmp.Or(getenv("RIBBAND_LISTEN"), "127.0.0.1:8080"),
		public:   getenv("RIBBAND_PUBLIC"),
		database: cmp.Or(getenv("RIBBAND_DATABASE"), "ribband.db"),
	}
	flags := flag.NewFlagSet("ribband", flag.ContinueOnError)
	flags.SetOutput(out)
	flags.StringVar(&s.listen, "listen", s.listen, "address to listen on; RIBBAND_LISTEN says the same")
	flags.StringVar(&s.public, "public", s.public, "address that people come by, such as https://yard.example, where a server in front of this one speaks https; RIBBAND_PUBLIC says the same")
	flags.StringVar(&s.database, "database", s.database, "file, or postgres:// address, of the database; RIBBAND_DATABASE says the same")
	flags.BoolVar(&s.demo, "demo", false, "set an invented yard up, or find it again, and show a token for each role")
	err := flags.Parse(args)
	if errors.Is(err, flag.ErrHelp) {
		return s, errHelp
	}
	if err == nil && flags.NArg() > 0 {
		err = fmt.Errorf("%q is no setting; the settings are -listen, -public, -database and -demo", flags.Arg(0))
	}
	return s, err
}

// version is the program's own, as the build noted it.
func version() string {
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return "unknown"
	}
	for _, s := range info.Settings {
		if s.Key == "vcs.revision" && len(s.Value) >= 12 {
			return s.Value[:12]
		}
	}
	return cmp.Or(info.Main.Version, "unknown")
}
