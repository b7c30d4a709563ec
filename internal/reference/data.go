package reference

import (
	"embed"
	"io/fs"
)

//go:embed data
var data embed.FS

// Data holds the project's tables, one folder per area.
func Data() fs.FS {
	sub, err := fs.Sub(data, "data")
	if err != nil {
		panic(err) // the folder is embedded; only a broken build gets here
	}
	return sub
}
