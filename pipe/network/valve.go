package network

import (
	"errors"
	"fmt"
	"math"

	"example.com/hydronics"
	"example.com/hydronics/fluid"
	"example.com/hydronics/pipe"
)

// Characteristic is the relation between the position of a control valve and
// its flow coefficient.
type Characteristic uint8

// The inherent characteristics.
const (
	Linear          Characteristic = iota // equal steps of position change Kv by equal amounts
	EqualPercentage                       // equal steps of position change Kv by equal factors
)

// String returns the characteristic in words.
func (c Characteristic) String() string {
	switch c {
	case Linear:
		return "linear"
	case EqualPercentage:
		return "equal percentage"
	}
	return "unknown"
}

// A Valve is a control valve with an inherent characteristic:
//
//	linear            Kv/Kvs = 1/R + (1 - 1/R) h
//	equal percentage  Kv/Kvs = R^(h-1)
//
// with the position h and the rangeability R. At h = 0 the plug is on its seat
// and nothing passes: there the characteristic does not hold.
// Source: IEC 60534-2-4, inherent flow characteristics (from memory).
type Valve struct {
	Kvs            pipe.Kv // wide open, m³/h
	Characteristic Characteristic
	Rangeability   float64 // R, 2 to 1000 (guard); 30 to 50 are common
	Position       float64 // h, from 0 (shut) to 1 (wide open)
}

// Kv returns the flow coefficient at the valve's position, 0 where it is shut.
func (v Valve) Kv() (pipe.Kv, error) {
	err := errors.Join(within("position of the valve", "", v.Position, 0, 1),
		within("rangeability of the valve", "", v.Rangeability, 2, 1000),
		checkKv("Kvs of the valve", v.Kvs))
	if v.Characteristic > EqualPercentage {
		err = errors.Join(err, fmt.Errorf("characteristic %d is not one of this package: %w", v.Characteristic, hydronics.ErrRange))
	}
	switch {
	case err != nil:
		return pipe.Kv(math.NaN()), err
	case v.Position == 0:
		return 0, nil
	case v.Characteristic == Linear:
		return v.Kvs * pipe.Kv(1/v.Rangeability+(1-1/v.Rangeability)*v.Position), nil
	default:
		return v.Kvs * pipe.Kv(math.Pow(v.Rangeability, v.Position-1)), nil
	}
}

func (v Valve) add(l *law, p fluid.Properties) error {
	kv, err := v.Kv()
	if err != nil {
		return err
	}
	if kv == 0 {
		l.shut = true
		return nil
	}
	return l.addKv("Kv of the valve at its position", kv, p.Density)
}

// A ThreePort is a mixing valve (two flows in, one out) or a diverting valve
// (one in, two out). Its common port is a node, and each of the other two is a
// [Valve] in the branch between that node and its port: [ThreePort.A] and
// [ThreePort.B]. [Solution.Temperatures] gives the temperature after mixing.
type ThreePort struct {
	Kvs            pipe.Kv // of either way wide open, m³/h
	Characteristic Characteristic
	Rangeability   float64
	Position       float64 // 1: all through A, 0: all through B
}

// A returns the way that opens with the position.
func (t ThreePort) A() Valve {
	return Valve(t)
}

// B returns the way that closes with the position.
func (t ThreePort) B() Valve {
	v := Valve(t)
	v.Position = 1 - t.Position
	return v
}

// A Thermostatic is a radiator valve that opens in proportion to how far the
// room is below the temperature at which it closes, until it is wide open:
//
//	Kv = Kv2 (Closing - Room)/2 K, at most Kvs
//
// Above the closing temperature nothing passes. Manufacturers state Kv2 at 2 K
// below closing (common practice after EN 215).
type Thermostatic struct {
	Kv2     pipe.Kv // m³/h, at 2 K below Closing
	Kvs     pipe.Kv // m³/h, wide open, at least Kv2
	Closing float64 // °C, -50 to 100 (guard)
	Room    float64 // °C, -50 to 100 (guard)
}

// Kv returns the flow coefficient at the room's temperature, 0 where the valve is shut.
func (v Thermostatic) Kv() (pipe.Kv, error) {
	err := errors.Join(checkKv("Kv2 of the thermostatic valve", v.Kv2),
		within("Kvs of the thermostatic valve", "m³/h", float64(v.Kvs), float64(v.Kv2), mostKv),
		within("closing temperature of the thermostatic valve", "°C", v.Closing, -50, 100),
		within("room temperature at the thermostatic valve", "°C", v.Room, -50, 100))
	if err != nil {
		return pipe.Kv(math.NaN()), err
	}
	kv := v.Kv2 * pipe.Kv((v.Closing-v.Room)/2)
	return max(0, min(kv, v.Kvs)), nil
}

func (v Thermostatic) add(l *law, p fluid.Properties) error {
	kv, err := v.Kv()
	if err != nil {
		return err
	}
	// Below a thousandth of Kv2 the valve is on its seat for every purpose.
	if kv < max(v.Kv2/1000, leastKv) {
		l.shut = true
		return nil
	}
	return l.addKv("Kv of the thermostatic valve", kv, p.Density)
}
