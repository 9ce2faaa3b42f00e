/* Solves a tank with CVODE (SUNDIALS, Debian's libsundials-dev): BDF, Newton, dense
 * matrix by differences, a new start after each jump.
 *
 *     cvode TANK RTOL REPEATS
 *
 * prints the pools on each day asked for, then the least time of all repeats in
 * microseconds, the steps and the evaluations of the rates. The absolute tolerance
 * of a pool is RTOL/100 of its peak. */
#include "tank.h"
#include <cvode/cvode.h>
#include <nvector/nvector_serial.h>
#include <string.h>
#include <sunlinsol/sunlinsol_dense.h>
#include <sunmatrix/sunmatrix_dense.h>
#include <time.h>

static int rates(realtype t, N_Vector y, N_Vector dy, void *data) {
	tank_rates(data, t, N_VGetArrayPointer(y), N_VGetArrayPointer(dy));
	return 0;
}

static void must(int flag, const char *what) {
	if (flag < 0) {
		fprintf(stderr, "%s: %d\n", what, flag);
		exit(1);
	}
}

static double seconds(void) {
	struct timespec t;
	clock_gettime(CLOCK_MONOTONIC, &t);
	return t.tv_sec + 1e-9 * t.tv_nsec;
}

int main(int argc, char **argv) {
	if (argc != 4) {
		fprintf(stderr, "usage: cvode TANK RTOL REPEATS\n");
		return 2;
	}
	tank *p = tank_load(argv[1]);
	double rtol = atof(argv[2]), end = p->day[p->days - 1], least = 1e9;
	double *out = calloc(p->days * POOLS, sizeof(double));
	SUNContext ctx;
	must(SUNContext_Create(NULL, &ctx), "context");
	N_Vector y = N_VNew_Serial(POOLS, ctx), atol = N_VNew_Serial(POOLS, ctx);
	for (int i = 0; i < POOLS; i++) N_VGetArrayPointer(atol)[i] = fmax(1e-2 * rtol * p->peak[i], 1e-12);
	SUNMatrix m = SUNDenseMatrix(POOLS, POOLS, ctx);
	SUNLinearSolver ls = SUNLinSol_Dense(y, m, ctx);
	void *cv = CVodeCreate(CV_BDF, ctx);
	double *v = N_VGetArrayPointer(y);
	must(CVodeInit(cv, rates, 0, y), "init");
	must(CVodeSVtolerances(cv, rtol, atol), "tolerances");
	must(CVodeSetUserData(cv, p), "data");
	must(CVodeSetLinearSolver(cv, ls, m), "linear solver");
	must(CVodeSetMaxNumSteps(cv, 100000), "steps");

	long steps = 0, calls = 0;
	for (int k = atoi(argv[3]); k > 0; k--) {
		double start = seconds(), t = 0;
		int seg = 0, jmp = 0, day = 0;
		steps = calls = 0;
		memcpy(v, p->y0, sizeof p->y0);
		while (t < end) {
			for (; seg < p->segments && p->seg[seg].day <= t; seg++) tank_segment(p, seg);
			for (; jmp < p->jumps && p->jump[jmp].day <= t; jmp++) {
				double w[POOLS];
				for (int i = 0; i < POOLS; i++) {
					w[i] = p->jump[jmp].add[i];
					for (int j = 0; j < POOLS; j++) w[i] += p->jump[jmp].m[i][j] * v[j];
				}
				memcpy(v, w, sizeof w);
			}
			double to = end;
			if (seg < p->segments) to = fmin(to, p->seg[seg].day);
			if (jmp < p->jumps) to = fmin(to, p->jump[jmp].day);
			must(CVodeReInit(cv, t, y), "restart");
			must(CVodeSetStopTime(cv, to), "stop time");
			for (; day < p->days && p->day[day] <= to; day++) {
				must(CVode(cv, p->day[day], y, &t, CV_NORMAL), "CVode");
				memcpy(out + day * POOLS, v, POOLS * sizeof(double));
			}
			if (t < to) must(CVode(cv, to, y, &t, CV_NORMAL), "CVode");
			t = to;
			long n;
			CVodeGetNumSteps(cv, &n), steps += n;
			CVodeGetNumRhsEvals(cv, &n), calls += n;
			CVodeGetNumLinRhsEvals(cv, &n), calls += n;
		}
		least = fmin(least, seconds() - start);
	}
	for (int d = 0; d < p->days; d++)
		for (int i = 0; i < POOLS; i++) printf("%.9g%c", out[d * POOLS + i], i == POOLS - 1 ? '\n' : ' ');
	printf("%.3f %ld %ld\n", 1e6 * least, steps, calls);
	return 0;
}
