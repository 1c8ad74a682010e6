// The clearance kernel of src/measures/clearance for round bores, in C++: the yardstick of the
// bench beside it. Reads samples written by bench.ts, prints the median time of one evaluation and
// the two results, which must equal those of the TypeScript kernel.
#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <utility>
#include <vector>
using std::max;
using std::min;
using std::sqrt;

static int S, M, N, B = 8, nb;
static double thickness, lipLength, width, height_, corner, rim;
static std::vector<double> point, tangent, first_, second_, bore, curv, reachIn, len, off;
static std::vector<int> shapeOf, standing;
constexpr int ROW = 16, SEG = 8, BOX = 8;
static std::vector<double> row, bend, seg, block, box, turn_, sharpest_, low, sum_;
static double thinnest, overlap;

static void note(double w) { if (w < thinnest) thinnest = w; }

static double reachTo(int k, double a, double b) { return row[k * ROW + 9] * sqrt(a * a + b * b); }

static double towardsFace(int k, int end) {
  double s = end == 0 ? -1 : 1;
  return reachTo(k, s * first_[3 * k + 2], s * second_[3 * k + 2]);
}
static double aboveFace(int k, int end) {
  double z = point[3 * k + 2];
  return end == 0 ? z : thickness - z;
}
static double mouth(int m, int end) {
  int k = m * S + (end == 0 ? 0 : S - 1);
  return towardsFace(k, end) / max(std::fabs(tangent[3 * k + 2]), 0.2);
}

static void packShape(int m) {
  for (int k = m * S; k < (m + 1) * S; k++) {
    double *r = &row[k * ROW];
    for (int d = 0; d < 3; d++) {
      r[d] = point[3 * k + d];
      r[3 + d] = first_[3 * k + d];
      r[6 + d] = second_[3 * k + d];
    }
    r[9] = 0.5 * bore[k];
    r[10] = 0;
    r[11] = reachIn[k];
    double x = curv[3 * k], y = curv[3 * k + 1], z = curv[3 * k + 2];
    bend[k] = sqrt(x * x + y * y + z * z);
  }
  for (int end = 0; end < 2; end++) {
    double zone = 2 * mouth(m, end), step = len[m] / (S - 1);
    for (int n = 0; n * step <= zone && n < S; n++) {
      int k = m * S + (end == 0 ? n : S - 1 - n);
      double reach = towardsFace(k, end), height = max(0.0, aboveFace(k, end));
      if (reach <= height || reach < 1e-6) break;
      double rise = tangent[3 * k + 2];
      double slope = std::fabs(rise) < 0.2 ? (rise < 0 ? -0.2 : 0.2) : rise;
      double share = (1 - height / reach) / slope;
      double *r = &row[k * ROW];
      for (int a = 3; a <= 6; a += 3) {
        double lift = share * r[a + 2];
        for (int d = 0; d < 3; d++) r[a + d] -= lift * tangent[3 * k + d];
      }
      r[11] /= std::fabs(slope);
    }
  }
}

static void packBounds(int m) {
  double step = len[m] / (S - 1), half = 0.5 * step;
  double *bx = &box[m * BOX];
  for (int d = 0; d < 3; d++) { bx[d] = INFINITY; bx[3 + d] = -INFINITY; }
  bx[6] = 0;
  for (int b = 0; b < nb; b++) {
    int from = b * B, to = min(S - 1, from + B);
    double lo[3], hi[3], most = 0;
    for (int d = 0; d < 3; d++) lo[d] = hi[d] = row[(m * S + from) * ROW + d];
    for (int k = m * S + from; k < m * S + to; k++) {
      double *r = &row[k * ROW], *n = r + ROW;
      double x = n[0] - r[0], y = n[1] - r[1], z = n[2] - r[2];
      double chord2 = x * x + y * y + z * z;
      double reach = max(r[11], n[11]), c = max(bend[k], bend[k + 1]);
      double scale = 0.0625 * chord2;
      if (c * step > 2) scale *= 2 / (c * step);
      for (int d = 0; d < 3; d++) r[12 + d] = (curv[3 * k + d] + curv[3 * k + 3 + d]) * scale;
      double slack2 = 0.25 * (step * step - chord2), arc = 0.1625 * c * chord2;
      r[15] = slack2 > arc * arc + 2e-5 * chord2 ? sqrt(slack2) - arc : 0;
      double swell = reach + 2 * c * scale * (1 + c * reach) + r[15];
      double *s = &seg[k * SEG];
      for (int d = 0; d < 3; d++) {
        s[d] = 0.5 * (r[d] + n[d]);
        lo[d] = min(lo[d], n[d]);
        hi[d] = max(hi[d], n[d]);
      }
      s[3] = half + swell;
      s[4] = 0.5 * x; s[5] = 0.5 * y; s[6] = 0.5 * z;
      s[7] = swell;
      sum_[0] += chord2 + bend[k + 1] + n[11] + n[9];
      most = max(most, swell);
    }
    double *o = &block[(m * nb + b) * BOX];
    for (int d = 0; d < 3; d++) {
      o[d] = lo[d];
      o[3 + d] = hi[d];
      bx[d] = min(bx[d], lo[d]);
      bx[3 + d] = max(bx[3 + d], hi[d]);
    }
    o[6] = most;
    bx[6] = max(bx[6], most);
  }
}

static double peakOf(int m, int k) {
  if (k == m * S || k + 2 >= (m + 1) * S) return 0;
  double up = bend[k] - bend[k - 1], down = bend[k + 1] - bend[k + 2];
  if (up <= 0 || down <= 0) return 0;
  double at = (bend[k + 1] + down - bend[k]) / (up + down);
  return at > 0 && at < 1 ? min(bend[k] + up * at, 1.5 * max(bend[k], bend[k + 1])) : 0;
}
struct Step { double turned2, slack2, angle2; bool hidden; };
static inline Step stepOf(int k, double ends, double step2) {
  const double *r = &row[k * ROW], *t = &tangent[3 * k];
  double x = t[3] - t[0], y = t[4] - t[1], z = t[5] - t[2];
  double cx = r[ROW] - r[0], cy = r[ROW + 1] - r[1], cz = r[ROW + 2] - r[2];
  double slack = (1 - 2e-4) * step2 - (cx * cx + cy * cy + cz * cz);
  Step s{x * x + y * y + z * z, slack > 0 ? 12 * slack / step2 : 0, ends * ends * step2, false};
  s.hidden = s.turned2 > 2 * s.angle2 || s.slack2 > 1.5 * s.angle2;
  return s;
}
static inline double hiddenBend(const Step &s, double step) {
  return sqrt(max(max(s.turned2 * (1 + s.turned2 / 12), s.slack2), s.angle2)) / step;
}
static void packTurns(int m) {
  double step = len[m] / (S - 1), step2 = step * step, sharpest = 0;
  turn_[m * S] = 0;
  for (int k = m * S; k + 1 < (m + 1) * S; k++) {
    double most = max(bend[k], bend[k + 1]);
    Step s = stepOf(k, most, step2);
    most = s.hidden ? hiddenBend(s, step) : max(most, peakOf(m, k));
    sharpest = max(sharpest, most);
    turn_[k + 1] = turn_[k] + most * step;
  }
  sharpest_[m] = sharpest;
}

static double visitBends(int m) {
  if (sharpest_[m] * (0.5 * max(thinnest, 0.0) + box[m * BOX + 6]) <= 1) return 0;
  double step = len[m] / (S - 1), step2 = step * step, depth = 0;
  for (int k = m * S; k < (m + 1) * S; k++) {
    double *r = &row[k * ROW];
    double sharpest = bend[k], cut = max(thinnest, -depth);
    bool hidden = false;
    int at = k;
    if (k + 1 < (m + 1) * S) {
      double bound = max(r[11], r[ROW + 11]);
      if ((turn_[k + 1] - turn_[k]) * (0.5 * cut + bound) < 0.999999 * step) continue;
      double ends = max(sharpest, bend[k + 1]), peak = peakOf(m, k);
      if (peak > ends) {
        sharpest = peak;
        if (bend[k + 1] > bend[k]) at = k + 1;
      }
      Step s = stepOf(k, ends, step2);
      if (s.hidden) {
        sharpest = hiddenBend(s, step);
        hidden = true;
      }
    }
    double inner = row[at * ROW + 11];
    if (sharpest * (0.5 * cut + inner) <= 1) continue;
    if (!hidden) {
      double x = curv[3 * at] / bend[at], y = curv[3 * at + 1] / bend[at], z = curv[3 * at + 2] / bend[at];
      inner = reachTo(at, x * first_[3 * at] + y * first_[3 * at + 1] + z * first_[3 * at + 2],
                      x * second_[3 * at] + y * second_[3 * at + 1] + z * second_[3 * at + 2]);
    }
    double left = 1 / sharpest - inner;
    if (-2 * left > depth) depth = -2 * left;
    note(2 * left);
  }
  return depth;
}

static double contactLean;
static double leanAt(int k, double s, double dx, double dy, double dz) {
  const double *t = &tangent[3 * k];
  double x = t[0] + s * (t[3] - t[0]), y = t[1] + s * (t[4] - t[1]), z = t[2] + s * (t[5] - t[2]);
  return std::fabs(x * dx + y * dy + z * dz) / sqrt(x * x + y * y + z * z);
}
static inline double clamp01(double s) { return s < 0 ? 0 : s > 1 ? 1 : s; }

static double segmentGap(int i, int j, double ox, double oy, double cut, double leanLimit = 1) {
  const double *p = &row[i * ROW], *q = &row[j * ROW], *p1 = p + ROW, *q1 = q + ROW;
  double ux = p1[0] - p[0], uy = p1[1] - p[1], uz = p1[2] - p[2];
  double vx = q1[0] - q[0], vy = q1[1] - q[1], vz = q1[2] - q[2];
  double rx = p[0] - q[0] - ox, ry = p[1] - q[1] - oy, rz = p[2] - q[2];
  double a = ux * ux + uy * uy + uz * uz, e = vx * vx + vy * vy + vz * vz;
  double b = ux * vx + uy * vy + uz * vz, c = ux * rx + uy * ry + uz * rz, f = vx * rx + vy * ry + vz * rz;
  double den = a * e - b * b;
  double s = clamp01(den > 1e-12 * a * e ? (b * f - c * e) / den : 0);
  double w = (b * s + f) / e;
  if (w < 0) { w = 0; s = clamp01(-c / a); }
  else if (w > 1) { w = 1; s = clamp01((b - c) / a); }
  double dx = vx * w - ux * s - rx, dy = vy * w - uy * s - ry, dz = vz * w - uz * s - rz;
  double dist = sqrt(dx * dx + dy * dy + dz * dz);
  double rA = max(p[11], p1[11]), rB = max(q[11], q1[11]);
  if (dist < 1e-9) {
    dx = uy * vz - uz * vy; dy = uz * vx - ux * vz; dz = ux * vy - uy * vx;
    double n = sqrt(dx * dx + dy * dy + dz * dz);
    if (n < 1e-9) { dx = p[3]; dy = p[4]; dz = p[5]; n = sqrt(dx * dx + dy * dy + dz * dz); }
    dx /= n; dy /= n; dz /= n;
  } else { double sc = 1 / dist; dx *= sc; dy *= sc; dz *= sc; }
  if (leanLimit < 1) {
    double lean = max(leanAt(i, s, dx, dy, dz), leanAt(j, w, dx, dy, dz));
    if (lean > leanLimit) return INFINITY;
    contactLean = lean;
  }
  double hA = dx * p[12] + dy * p[13] + dz * p[14], hB = dx * q[12] + dy * q[13] + dz * q[14];
  double outA = hA < 0 ? -hA : 0, outB = hB > 0 ? hB : 0;
  double bA = max(bend[i], bend[i + 1]), bB = max(bend[j], bend[j + 1]), spare = p[15] + q[15];
  double caps = dist - rA - rB - spare - outA * (1 + bA * rA) - outB * (1 + bB * rB);
  if (caps >= cut) return caps;
  double alA = dx * ux + dy * uy + dz * uz, alB = dx * vx + dy * vy + dz * vz;
  auto reach = [&](const double *r) {
    double x = dx * r[3] + dy * r[4] + dz * r[5], y = dx * r[6] + dy * r[7] + dz * r[8];
    return r[9] * sqrt(x * x + y * y);
  };
  double toB = max(reach(p) - s * alA, reach(p1) + (1 - s) * alA);
  double toA = max(reach(q) + w * alB, reach(q1) - (1 - w) * alB);
  double gap = dist - toB - toA - (spare + outA * (1 + bA * toB) + outB * (1 + bB * toA));
  return max(gap, caps);
}

static double visitSelf(int m) {
  const double *turn = &turn_[m * S];
  if (turn[S - 1] < 1.44) return 0;
  double step = len[m] / (S - 1), near2 = 4 * step * step, facing2 = 0.25 * 0.75 * 0.75 * step * step;
  double widest = 0.5 * step + box[m * BOX + 6], least = INFINITY;
  for (int k = S - 2; k >= 0; k--) low[k] = least = min(least, seg[(m * S + k) * SEG + 2]);
  double depth = 0, cut = max(thinnest, 0.0);
  int from = 2;
  for (int i = 0; i < S - 3; i++) {
    if (turn[S - 1] - turn[i] < 1.44) break;
    if (from < i + 2) from = i + 2;
    while (turn[from + 1] - turn[i] < 1.44) from++;
    const double *p = &seg[(m * S + i) * SEG];
    double top = p[2] + (cut + p[3] + widest);
    for (int j = from; j < S - 1 && low[j] < top; j++) {
      const double *q = &seg[(m * S + j) * SEG];
      double x = q[0] - p[0], y = q[1] - p[1], z = q[2] - p[2];
      double limit = cut + p[3] + q[3], square = x * x + y * y + z * z;
      if (square >= limit * limit || limit <= 0) continue;
      if (square > near2) {
        double ai = x * p[4] + y * p[5] + z * p[6], aj = x * q[4] + y * q[5] + z * q[6];
        if (ai * ai > facing2 * square || aj * aj > facing2 * square) continue;
      }
      double gap = segmentGap(m * S + i, m * S + j, 0, 0, cut, 0.75);
      if (gap >= cut) continue;
      double wall = gap > 0 ? gap / sqrt(1 - contactLean * contactLean) : gap;
      if (-wall > depth) depth = -wall;
      if (wall < cut) cut = depth > 0 ? -depth : wall;
      note(wall);
    }
  }
  return depth;
}

static double faceWall(double clear, double rise) {
  double lean = sqrt(max(0.0, 1 - rise * rise)), lo = 0.6427876096865393, hi = 0.8660254037844386;
  if (lean <= lo) return INFINITY;
  if (clear <= 0) return clear;
  double s = lean >= hi ? 1 : (lean - lo) / (hi - lo);
  return clear / (lean * s * s * (3 - 2 * s));
}
static bool isFar(int m, int b, int end) {
  if (b < 0 || b >= nb) return false;
  const double *o = &block[(m * nb + b) * BOX];
  return (end == 0 ? o[2] : thickness - o[5]) - o[6] > max(thinnest, 0.0) + 1e-9;
}
static double visitFace(int m, int end) {
  double step = len[m] / (S - 1), depth = 0, lip = -1, before = 0;
  int first = m * S + (end == 0 ? 0 : S - 1), way = end == 0 ? 1 : -1;
  double longest = 2 * mouth(m, end) + row[first * ROW + 9];
  int b = end == 0 ? 1 : nb - 2, gate = end == 0 ? B : (nb - 1) * B;
  for (int s = first - m * S; s >= 0 && s < S; s += way) {
    if (s == gate) {
      if (lip >= 0) {
        while (isFar(m, b, end)) {
          b += way;
          gate += way * B;
          if (b < 0 || b >= nb) return depth;
        }
        s = gate;
      }
      b += way;
      gate += way * B;
    }
    int n = end == 0 ? s : S - 1 - s, k = m * S + s;
    double rise = tangent[3 * k + 2], height = aboveFace(k, end);
    if (height < -1e-6) {
      depth = max(depth, -height);
      note(height);
    }
    if (lip >= 0) {
      double spare = height - reachIn[k];
      if (spare >= 0 && (rise * rise >= 0.5868240888334652 || spare >= thinnest)) continue;
    }
    double clear = height - towardsFace(k, end), arc = n * step;
    if (lip < 0) {
      if (clear >= -1e-9) lip = before < 0 ? arc - step * clear / (clear - before) : arc;
      else if (arc >= longest) lip = longest;
    }
    if (lip >= 0) {
      if (clear < 0 && -clear > depth && clear <= -1e-6) depth = -clear;
      double past = arc - lip - lipLength;
      if (past >= 0 && past < step && n > 0) {
        before = aboveFace(k - way, end) - towardsFace(k - way, end);
        note(faceWall(clear + past / step * (before - clear), rise));
      }
      if (past >= 0) note(faceWall(clear, rise));
    }
    before = clear;
  }
  return depth;
}

static inline double spread(double a0, double a1, double b0, double b1) {
  return b0 > a1 ? b0 - a1 : a0 > b1 ? a0 - b1 : 0;
}
static std::vector<int> nearI, nearJ;
static std::vector<double> nearBound;
static int listNear(int a, int i, int b, int j, double ox, double oy, double cut) {
  int ia = a * S + i * B, ib = a * S + min(S - 1, (i + 1) * B), ja = b * S + j * B, jb = b * S + min(S - 1, (j + 1) * B);
  const double *o = &block[(b * nb + j) * BOX];
  int count = 0, first = 0;
  double least = INFINITY;
  for (int p = ia; p < ib; p++) {
    const double *r = &seg[p * SEG];
    double x = r[0] - ox, y = r[1] - oy, z = r[2];
    double bx = spread(x, x, o[0], o[3]), by = spread(y, y, o[1], o[4]), bz = spread(z, z, o[2], o[5]);
    double far = cut + o[6] + 1e-9 + r[3];
    if (bx * bx + by * by + bz * bz >= far * far || far <= 0) continue;
    for (int q = ja; q < jb; q++) {
      const double *s = &seg[q * SEG];
      double dx = s[0] - x, dy = s[1] - y, dz = s[2] - z, limit = cut + r[3] + s[3];
      double square = dx * dx + dy * dy + dz * dz;
      if (square >= limit * limit || limit <= 0) continue;
      double shares = std::fabs(dx * r[4] + dy * r[5] + dz * r[6]) + std::fabs(dx * s[4] + dy * s[5] + dz * s[6]);
      double bound = square > 0 ? (square - shares) / sqrt(square) - (r[7] + s[7] + 1e-9) : -INFINITY;
      if (bound >= cut) continue;
      if (bound < least) {
        least = bound;
        first = count;
      }
      nearBound[count] = bound;
      nearI[count] = p;
      nearJ[count++] = q;
    }
  }
  if (count > 0) {
    std::swap(nearBound[0], nearBound[first]);
    std::swap(nearI[0], nearI[first]);
    std::swap(nearJ[0], nearJ[first]);
  }
  return count;
}
static double blockGap(int a, int i, int b, int j, double ox, double oy, double cut) {
  double best = cut;
  int count = listNear(a, i, b, j, ox, oy, cut);
  for (int n = 0; n < count; n++) {
    if (nearBound[n] >= best) continue;
    double gap = segmentGap(nearI[n], nearJ[n], ox, oy, best);
    if (gap < best) best = gap;
  }
  return best;
}
static std::vector<double> bound;
static std::vector<int> which;
static double pairGap(int a, int b, double ox, double oy, double cut) {
  int count = 0;
  for (int i = 0; i < nb; i++)
    for (int j = 0; j < nb; j++) {
      const double *p = &block[(a * nb + i) * BOX], *q = &block[(b * nb + j) * BOX];
      double reach = p[6] + q[6], limit = cut + reach;
      double z = spread(p[2], p[5], q[2], q[5]);
      if (z >= limit) continue;
      double x = spread(p[0] - ox, p[3] - ox, q[0], q[3]), y = spread(p[1] - oy, p[4] - oy, q[1], q[4]);
      double sq = x * x + y * y + z * z;
      if (sq >= limit * limit) continue;
      double least = sqrt(sq) - reach - 1e-9;
      int n = count++;
      for (; n > 0 && bound[n - 1] > least; n--) { bound[n] = bound[n - 1]; which[n] = which[n - 1]; }
      bound[n] = least;
      which[n] = i * nb + j;
    }
  double best = cut;
  for (int n = 0; n < count && bound[n] < best; n++) best = blockGap(a, which[n] / nb, b, which[n] % nb, ox, oy, best);
  return best;
}

static std::vector<int> order_;
static std::vector<double> west;
static std::vector<std::pair<double, int>> keys;
struct Known { int a, b; double ox, oy, gap; };
static std::vector<Known> known;
static void visitPairs() {
  for (int i = 0; i < N; i++) {
    const double *p = &box[shapeOf[i] * BOX];
    keys[i] = {p[0] + off[2 * i] - p[6], i};
  }
  std::sort(keys.begin(), keys.end());
  for (int n = 0; n < N; n++) { west[n] = keys[n].first; order_[n] = keys[n].second; }
  known.clear();
  bool repeats = N > M;
  for (int n = 0; n < N; n++) {
    int i = order_[n];
    const double *p = &box[shapeOf[i] * BOX];
    double east = p[3] + off[2 * i] + p[6], south = p[1] + off[2 * i + 1] - p[6], north = p[4] + off[2 * i + 1] + p[6];
    for (int m = n + 1; m < N; m++) {
      double cut = max(thinnest, 0.0);
      if (west[m] - east >= cut) break;
      int j = order_[m];
      const double *q = &box[shapeOf[j] * BOX];
      double y = off[2 * j + 1];
      if (q[1] + y - q[6] - north >= cut || south - (q[4] + y + q[6]) >= cut) continue;
      int a = min(i, j), b = max(i, j);
      double ox = off[2 * b] - off[2 * a], oy = off[2 * b + 1] - off[2 * a + 1];
      int sa = shapeOf[a], sb = shapeOf[b];
      if (sa > sb || (sa == sb && (ox < -1e-9 || (ox < 1e-9 && oy < 0)))) { std::swap(sa, sb); ox = -ox; oy = -oy; }
      const Known *hit = nullptr;
      if (repeats)
        for (const Known &k : known)
          if (k.a == sa && k.b == sb && std::fabs(k.ox - ox) < 1e-9 && std::fabs(k.oy - oy) < 1e-9) { hit = &k; break; }
      double gap = hit ? hit->gap : pairGap(sa, sb, ox, oy, cut);
      if (repeats && !hit) known.push_back({sa, sb, ox, oy, gap});
      note(gap);
      if (gap < 0) overlap -= gap;
    }
  }
}

// Walls to a rectangular outline.
static double insideDistance(double x, double y) {
  double r = min(corner, min(0.5 * width, 0.5 * height_));
  double dx = std::fabs(x) - (0.5 * width - r), dy = std::fabs(y) - (0.5 * height_ - r);
  double px = max(dx, 0.0), py = max(dy, 0.0);
  return r - min(max(dx, dy), 0.0) - sqrt(px * px + py * py);
}
static void outwards(double x, double y, double *out) {
  double r = min(corner, min(0.5 * width, 0.5 * height_));
  double dx = std::fabs(x) - (0.5 * width - r), dy = std::fabs(y) - (0.5 * height_ - r);
  double sx = x < 0 ? -1 : 1, sy = y < 0 ? -1 : 1;
  if (dx > 0 && dy > 0) {
    double n = sqrt(dx * dx + dy * dy);
    out[0] = sx * dx / n;
    out[1] = sy * dy / n;
  } else {
    out[0] = dx > dy ? sx : 0;
    out[1] = dx > dy ? 0 : sy;
  }
}
static double stationEdge(int k, double x, double y) {
  const double *r = &row[k * ROW];
  double way[2], least = INFINITY;
  outwards(x, y, way);
  for (int step = 0; step < 4; step++) {
    double a = way[0] * r[3] + way[1] * r[4], b = way[0] * r[6] + way[1] * r[7], n = sqrt(a * a + b * b);
    double scale = n > 1e-300 ? r[9] / n : 0;
    double px = x + scale * (a * r[3] + b * r[6]), py = y + scale * (a * r[4] + b * r[7]);
    double wall = insideDistance(px, py);
    if (wall >= least) return least;
    least = wall;
    outwards(px, py, way);
  }
  return least;
}
static void visitEdges() {
  for (int i = 0; i < N; i++) {
    int m = shapeOf[i];
    double ox = off[2 * i], oy = off[2 * i + 1], need = max(thinnest, rim);
    const double *b = &box[m * BOX];
    double fx = max(max(-b[0], b[3]), 0.0), fy = max(max(-b[1], b[4]), 0.0);
    if (insideDistance(ox, oy) - (sqrt(fx * fx + fy * fy) + b[6]) >= need) continue;
    double least = need;
    for (int k = m * S; k < (m + 1) * S; k++) {
      double x = row[k * ROW] + ox, y = row[k * ROW + 1] + oy;
      if (insideDistance(x, y) - row[k * ROW + 11] >= least) continue;
      double wall = stationEdge(k, x, y);
      if (wall >= least) continue;
      least = wall;
      note(wall);
    }
    if (rim - least > 1e-6) overlap += rim - least;
  }
}

static void evaluate() {
  thinnest = 8;
  overlap = 0;
  sum_[0] = 0;
  for (int m = 0; m < M; m++) { packShape(m); packBounds(m); packTurns(m); standing[m] = 0; }
  for (int i = 0; i < N; i++) standing[shapeOf[i]]++;
  for (int m = 0; m < M; m++) overlap += standing[m] * visitBends(m);
  visitEdges();
  visitPairs();
  for (int m = 0; m < M; m++) {
    double d = visitSelf(m);
    d += visitFace(m, 0) + visitFace(m, 1);
    overlap += standing[m] * d;
  }
  if (!(sum_[0] - sum_[0] == 0)) thinnest = NAN;
}

int main(int argc, char **argv) {
  FILE *f = argc > 1 ? fopen(argv[1], "rb") : nullptr;
  if (!f) { fprintf(stderr, "usage: kernel SAMPLES REPEATS\n"); return 2; }
  auto get = [&](std::vector<double> &v, size_t n) { v.resize(n); if (fread(v.data(), 8, n, f) != n) exit(3); };
  std::vector<double> head, shapes;
  get(head, 9);
  S = head[0]; M = head[1]; N = head[2]; thickness = head[3]; lipLength = head[4];
  width = head[5]; height_ = head[6]; corner = head[7]; rim = head[8];
  size_t rows = size_t(M) * S;
  get(point, 3 * rows); get(tangent, 3 * rows); get(first_, 3 * rows); get(second_, 3 * rows);
  get(curv, 3 * rows); get(bore, rows); get(reachIn, rows); get(len, M); get(shapes, N); get(off, 2 * N);
  fclose(f);
  shapeOf.assign(shapes.begin(), shapes.end());
  nb = (S - 2) / B + 1;
  row.resize(rows * ROW); bend.resize(rows + 1); seg.resize(rows * SEG); block.resize(size_t(M) * nb * BOX);
  box.resize(size_t(M) * BOX); turn_.resize(rows); sharpest_.resize(M); standing.resize(M); low.resize(S); sum_.resize(1);
  nearI.resize(B * B); nearJ.resize(B * B); nearBound.resize(B * B); bound.resize(nb * nb); which.resize(nb * nb);
  order_.resize(N); west.resize(N); keys.resize(N);
  int repeats = argc > 2 ? atoi(argv[2]) : 200;
  std::vector<double> times;
  for (int r = 0; r < repeats; r++) {
    auto t = std::chrono::steady_clock::now();
    evaluate();
    times.push_back(std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - t).count());
  }
  std::sort(times.begin(), times.end());
  printf("{\"median_ms\":%.17g,\"least_ms\":%.17g,\"thinnest_mm\":%.17g,\"overlap_mm\":%.17g}\n",
         times[repeats / 2], times[0], thinnest, overlap);
}
