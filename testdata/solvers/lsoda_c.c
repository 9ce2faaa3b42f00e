/* The same rates as a library, for LSODA through ctypes. */
#include "tank.h"

void rates(const tank *p, double t, const double *y, double *dy) { tank_rates(p, t, y, dy); }
