// Speed prints a table of how fast the calculations are: as ratios to plain ways
// of doing the same, measured in turns with them, and in units of one logarithm.
// Both mean the same on other machines, which times in nanoseconds do not.
//
//	go run ./internal/speed          the whole table, two minutes
//	go run ./internal/speed water    the rows in which the word occurs
//
// The plain ways stand in the other files, each short enough to be checked by
// reading; the tests hold them against the library.
package main

import (
	"fmt"
	"math"
	"os"
	"runtime"
	"strings"
)

func main() {
	runtime.GOMAXPROCS(1) // gonum would use more processors than the library does
	word := strings.Join(os.Args[1:], " ")
	list, err := rows()
	if err != nil {
		fmt.Fprintln(os.Stderr, "speed:", err)
		os.Exit(1)
	}
	fmt.Println("| calculation | compared with | times as fast | logarithms |")
	fmt.Println("|---|---|---:|---:|")
	for _, r := range list {
		if !strings.Contains(r.name+r.plainName, word) {
			continue
		}
		loops := []loop{logarithms, r.library}
		if r.plain != nil {
			loops = append(loops, r.plain)
		}
		least := compare(r.rounds, loops...)
		ratio := ""
		if r.plain != nil {
			ratio = digits(least[2] / least[1])
		}
		fmt.Printf("| %s | %s | %s | %s |\n", r.name, r.plainName, ratio, digits(least[1]/least[0]))
	}
	if word == "" {
		exponent, err := growth()
		if err != nil {
			fmt.Fprintln(os.Stderr, "speed:", err)
			os.Exit(1)
		}
		fmt.Printf("\nTime per iteration of the two-pipe system from 100 to 10,000 emitters: in proportion to the number to the power %.2f.\n", exponent)
	}
}

// logarithms is the unit: each logarithm waits for the one before.
func logarithms(n int) float64 {
	x := 1.5
	for range n {
		x = 1.5 + math.Log(x)
	}
	return x
}

// digits prints two significant digits, whole numbers from 10 on.
func digits(v float64) string {
	if v < 10 {
		return fmt.Sprintf("%.1f", v)
	}
	unit := math.Pow(10, math.Floor(math.Log10(v))-1)
	return fmt.Sprintf("%.0f", math.Round(v/unit)*unit)
}
