package job

import (
	"crypto/sha256"
	"encoding/hex"
)

// hashDigits is how much of a hash people can compare by eye.
const hashDigits = 16

// Hash tells one job file from another: the first 16 hexadecimal digits of the
// SHA-256 (FIPS 180-4) of its bytes as they stand, line breaks, blanks and a byte
// order mark included. A sheet that names it can be traced to its file; any
// program that prints SHA-256 sums prints the same digits first.
func Hash(data []byte) string {
	sum := sha256.Sum256(data)
	return hex.EncodeToString(sum[:])[:hashDigits]
}
