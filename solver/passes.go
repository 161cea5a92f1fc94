package solver

import "gonum.org/v1/gonum/floats"

// The passes over the state that a step makes, each a single loop: every one
// reads the stages once, for all that is wanted of them.

// stage2 … stage6 store in z the state at which a stage is evaluated, and in w
// the stages before it, weighed with c/h and the capacities.

func stage2(z, w, x, c, u1 []float64, q float64) {
	n := len(z)
	w, x, c, u1 = w[:n], x[:n], c[:n], u1[:n]
	for i := range z {
		v := u1[i]
		z[i] = x[i] + a21*v
		w[i] = q * c21 * v * c[i]
	}
}

func stage3(z, w, x, c, u1, u2 []float64, q float64) {
	n := len(z)
	w, x, c, u1, u2 = w[:n], x[:n], c[:n], u1[:n], u2[:n]
	for i := range z {
		v1, v2 := u1[i], u2[i]
		z[i] = x[i] + (a31*v1 + a32*v2)
		w[i] = q * c[i] * (c31*v1 + c32*v2)
	}
}

func stage4(z, w, x, c, u1, u2, u3 []float64, q float64) {
	n := len(z)
	w, x, c, u1, u2, u3 = w[:n], x[:n], c[:n], u1[:n], u2[:n], u3[:n]
	for i := range z {
		v1, v2, v3 := u1[i], u2[i], u3[i]
		z[i] = x[i] + ((a41*v1 + a42*v2) + a43*v3)
		w[i] = q * c[i] * ((c41*v1 + c42*v2) + c43*v3)
	}
}

func stage5(z, w, x, c, u1, u2, u3, u4 []float64, q float64) {
	n := len(z)
	w, x, c, u1, u2, u3, u4 = w[:n], x[:n], c[:n], u1[:n], u2[:n], u3[:n], u4[:n]
	for i := range z {
		v1, v2, v3, v4 := u1[i], u2[i], u3[i], u4[i]
		z[i] = x[i] + ((a51*v1 + a52*v2) + (a53*v3 + a54*v4))
		w[i] = q * c[i] * ((c51*v1 + c52*v2) + (c53*v3 + c54*v4))
	}
}

// stage6 starts from the z of stage 5.
func stage6(z, w, c, u1, u2, u3, u4, u5 []float64, q float64) {
	n := len(z)
	w, c, u1, u2, u3, u4, u5 = w[:n], c[:n], u1[:n], u2[:n], u3[:n], u4[:n], u5[:n]
	for i := range z {
		v1, v2, v3, v4, v5 := u1[i], u2[i], u3[i], u4[i], u5[i]
		z[i] += v5
		w[i] = q * c[i] * ((c61*v1 + c62*v2) + (c63*v3 + c64*v4) + c65*v5)
	}
}

// finish stores the new state in z and returns the sum of the squares of the
// error estimate over the first n.
func finish(z, u6 []float64, n int) float64 {
	floats.Add(z, u6)
	return floats.Dot(u6[:n], u6[:n])
}

// review stores in mid the dense output at the middle of the step and in
// sum the stages weighed by bookWeights.
func review(mid, sum, x, x1 []float64, u *[stages][]float64) {
	const (
		m1 = dense1/4 + bend1/8
		m2 = dense2/4 + bend2/8
		m3 = dense3/4 + bend3/8
		m4 = dense4/4 + bend4/8
		m5 = dense5/4 + bend5/8
	)
	n := len(mid)
	sum, x, x1 = sum[:n], x[:n], x1[:n]
	u1, u2, u3, u4, u5, u6 := u[0][:n], u[1][:n], u[2][:n], u[3][:n], u[4][:n], u[5][:n]
	b1, b2, b3, b4, b5, b6 := bookWeights[0], bookWeights[1], bookWeights[2], bookWeights[3], bookWeights[4], bookWeights[5]
	for i := range mid {
		v1, v2, v3, v4, v5, v6 := u1[i], u2[i], u3[i], u4[i], u5[i], u6[i]
		mid[i] = 0.5*(x[i]+x1[i]) + ((m1*v1 + m2*v2) + (m3*v3 + m4*v4) + m5*v5)
		sum[i] = (b1*v1 + b2*v2) + (b3*v3 + b4*v4) + (b5*v5 + b6*v6)
	}
}
