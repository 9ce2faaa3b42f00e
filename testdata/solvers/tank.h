/* The equations of equations.py in C, for CVODE and for LSODA alike. A tank comes
 * as numbers in the order in which compare writes them. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

enum { TAN, NO2, NO3, ORG, SOIL, PLANT, GONE, B, ALK = B + 4, O2, CL, POOLS };
enum { AOB, AOA, CMX, NOB };

typedef struct { double ktan, kno2, ko2, kalk, phmin, phopt, phmax, kinh3, kihno2, yn; } guild;
typedef struct {
	double day, mu[4], decay[4], kanh3, kahno2, kw, sat, kla, film, korg, ksoil, cap, fedtan, fedorg, plant, kcl, clkill,
	    kill, inhib, rising;
	double full[4], vmax[4]; /* worked out */
} segment;
typedef struct { double day, m[POOLS][POOLS], add[POOLS]; } jump;
typedef struct {
	guild g[4];
	double growa, grown, halfa, halfn, decay, area, source, plant, phmin, freenh3, chlorine, harm, phos, loss, rise;
	double sated, acid, demand, y0[POOLS], peak[POOLS];
	double phiref; /* free ammonia at pH 7.5 and 25 C */
	int segments, jumps, days;
	segment *seg;
	jump *jump;
	double *day;
	const segment *now; /* whose rates are asked for */
} tank;

static double number(FILE *f) {
	double x;
	if (fscanf(f, "%lf", &x) != 1) {
		fprintf(stderr, "the tank's file is too short\n");
		exit(1);
	}
	return x;
}

static void numbers(FILE *f, double *x, int n) {
	for (int i = 0; i < n; i++) x[i] = number(f);
}

tank *tank_load(const char *path) {
	FILE *f = fopen(path, "r");
	if (!f) {
		perror(path);
		exit(1);
	}
	tank *t = calloc(1, sizeof *t);
	numbers(f, &t->g[0].ktan, 4 * sizeof(guild) / sizeof(double));
	numbers(f, &t->growa, 15);
	numbers(f, &t->sated, 3);
	numbers(f, t->y0, POOLS);
	numbers(f, t->peak, POOLS);
	t->seg = calloc(t->segments = number(f), sizeof(segment));
	for (int i = 0; i < t->segments; i++) {
		segment *s = &t->seg[i];
		numbers(f, &s->day, 26);
		for (int j = 0; j < 4; j++) {
			s->full[j] = s->mu[j] * (j == NOB ? t->grown : t->growa) * t->phos / t->g[j].yn;
			s->vmax[j] = s->full[j] / (1 + s->inhib * t->harm);
		}
	}
	t->jump = calloc(t->jumps = number(f), sizeof(jump));
	for (int i = 0; i < t->jumps; i++) numbers(f, &t->jump[i].day, 1 + POOLS * POOLS + POOLS);
	t->day = calloc(t->days = number(f), sizeof(double));
	numbers(f, t->day, t->days);
	fclose(f);
	t->now = t->seg;
	t->phiref = 1 / (1 + pow(10, 9.24629 - 7.5));
	return t;
}

void tank_segment(tank *t, int i) { t->now = &t->seg[i]; }

/* tank_rates puts dy/dt into dy. */
void tank_rates(const tank *p, double t, const double *y, double *dy) {
	const segment *s = p->now;
	const guild *g = p->g;
	const double *b = y + B;
	double a = y[ALK] * 1e-3, c = p->acid + s->kw, root = sqrt(a * a + 4 * c);
	double h = a > 0 ? 2 * c / (a + root) : (root - a) / 2, ph = -log10(h);
	double phi = s->kanh3 / (s->kanh3 + h), nh3 = y[TAN] * phi / p->freenh3, hno2 = y[NO2] * h / (h + s->kahno2);
	double scale = sqrt(sqrt(p->phiref / phi));

	double film = y[O2] * s->film, carbon = fmax(y[ALK], 0), v[4];
	for (int i = 0; i < 4; i++) {
		double lo = g[i].phmin + p->phmin, e = 0;
		if (lo < ph && ph < g[i].phmax) {
			double q = (ph - lo) * (ph - g[i].phmax), d = ph - g[i].phopt;
			e = q / (q - d * d);
		}
		v[i] = s->vmax[i] * b[i] * fmax(e, 0.02) * film / (g[i].ko2 + film) * carbon / (g[i].kalk + carbon);
	}
	double size = 1 / (s->cap * p->area);
	double ua = (s->full[AOB] * b[AOB] + s->full[AOA] * b[AOA] + s->full[CMX] * b[CMX]) * size;
	double un = (s->full[NOB] * b[NOB] + s->full[CMX] * b[CMX]) * size;
	double rooma = fmax(1 - ua * ua, 0), roomn = fmax(1 - un * un, 0);

	double kc = g[CMX].ktan * scale;
	double sa = y[TAN] / (g[AOB].ktan * scale * p->halfa + y[TAN] * (1 + nh3 / g[AOB].kinh3));
	double so = y[TAN] / (g[AOA].ktan * scale * p->halfa + y[TAN] * (1 + nh3 / g[AOA].kinh3));
	double sc = y[TAN] / (kc + y[TAN]), sn = y[NO2] / (g[NOB].kno2 * p->halfn + y[NO2]);
	double oxa = v[AOB] * sa * g[AOB].kihno2 / (g[AOB].kihno2 + hno2);
	double oxo = v[AOA] * so * g[AOA].kihno2 / (g[AOA].kihno2 + hno2);
	double inh = v[CMX] * fmax(g[CMX].kinh3 / (g[CMX].kinh3 + nh3), 0.3) * g[CMX].kihno2 / (g[CMX].kihno2 + hno2);
	double oxc = inh * sc, oxc2 = inh * y[NO2] / (g[CMX].kno2 + y[NO2]);
	double leak = y[TAN] / (y[TAN] + 10 * kc);
	double oxn = v[NOB] * sn * g[NOB].kihno2 / (g[NOB].kihno2 + hno2);
	double tono2 = oxa + oxo + oxc * leak, through = oxc * (1 - leak), fromno2 = oxn + oxc2;
	double ga = g[AOB].yn * oxa * rooma, go = g[AOA].yn * oxo * rooma, gc = g[CMX].yn * oxc * rooma * 0.5;
	double gc2 = g[CMX].yn * oxc2 * roomn * 0.5, gn = g[NOB].yn * oxn * roomn * g[NOB].kinh3 / (g[NOB].kinh3 + nh3);

	double poison = y[CL] * s->clkill * p->chlorine, killed = s->kill * p->harm, dead = 0, die[4];
	double fed[4] = {sa, so, sc, sn};
	for (int i = 0; i < 4; i++) {
		die[i] = b[i] * (s->decay[i] * p->decay * (0.4 + 0.6 * fed[i]) + killed + poison * (i == AOA ? 0.15 : 1));
		dead += die[i];
	}
	double plant = s->plant * p->plant, want = 0.1 + y[TAN] + y[NO3] / 3;
	double upt = plant * y[TAN] / want, upn = plant * y[NO3] / 3 / want;
	double rise = s->rising ? fmin(1 + p->rise * t, p->sated) : 1;
	double fedt = s->fedtan * p->source * rise, fedo = s->fedorg * p->source * rise;
	double rot = s->korg * y[ORG], leach = s->ksoil * y[SOIL], lost = p->loss * y[NO3];
	double use = 3.43 * (tono2 + through) + 1.14 * (fromno2 + through) + p->demand;

	dy[TAN] = fedt + rot + leach - tono2 - through - ga - go - gc - upt;
	dy[NO2] = tono2 - fromno2 - gn - gc2;
	dy[NO3] = fromno2 + through - upn - lost;
	dy[ORG] = fedo + dead - rot;
	dy[SOIL] = -leach;
	dy[PLANT] = upt + upn;
	dy[GONE] = lost;
	dy[B + AOB] = ga - die[AOB];
	dy[B + AOA] = go - die[AOA];
	dy[B + CMX] = gc + gc2 - die[CMX];
	dy[B + NOB] = gn - die[NOB];
	dy[ALK] = (fedt + rot + leach - 2 * (tono2 + through) - ga - go - gc - upt + upn + lost) / 14.007;
	dy[O2] = s->kla * (s->sat - y[O2]) - use * y[O2] / (y[O2] + 0.05);
	dy[CL] = -s->kcl * y[CL];
}
