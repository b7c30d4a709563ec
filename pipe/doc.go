// Package pipe sizes and checks tubes that carry heating water: velocity,
// pressure loss, content and heat.
package pipe
