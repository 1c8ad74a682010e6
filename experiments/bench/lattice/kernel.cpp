// The collision and streaming of src/flow/plain-kernel.ts in plain C++, on a full box, as a yardstick:
//   g++ -O3 -march=native -ffast-math kernel.cpp -o kernel && ./kernel
#include <chrono>
#include <cmath>
#include <cstdio>
#include <vector>

static void collide(int size, const int* spans, int spanNumbers, const float* __restrict f,
                    float* __restrict out, const float* tauOf, float eddy) {
  for (int s = 0; s < spanNumbers; s += 11) {
    const int from = spans[s];
    const int length = spans[s + 1];
    const int layer = spans[s + 2];
    const int left = spans[s + 3];
    const int right = spans[s + 4];
    const int front = spans[s + 5];
    const int rear = spans[s + 6];
    const int p1 = size + left + from;
    const int p2 = 2 * size + right + from;
    const int p3 = 3 * size + front + from;
    const int p4 = 4 * size + rear + from;
    const int p5 = 5 * size - 1 + from;
    const int p6 = 6 * size + 1 + from;
    const int p7 = 7 * size + spans[s + 7] + from;
    const int p8 = 8 * size + spans[s + 8] + from;
    const int p9 = 9 * size + spans[s + 9] + from;
    const int p10 = 10 * size + spans[s + 10] + from;
    const int p11 = 11 * size + left - 1 + from;
    const int p12 = 12 * size + right + 1 + from;
    const int p13 = 13 * size + left + 1 + from;
    const int p14 = 14 * size + right - 1 + from;
    const int p15 = 15 * size + front - 1 + from;
    const int p16 = 16 * size + rear + 1 + from;
    const int p17 = 17 * size + front + 1 + from;
    const int p18 = 18 * size + rear - 1 + from;
    for (int n = 0; n < length; n++) {
      const float f0 = f[from + n];
      const float f1 = f[p1 + n];
      const float f2 = f[p2 + n];
      const float f3 = f[p3 + n];
      const float f4 = f[p4 + n];
      const float f5 = f[p5 + n];
      const float f6 = f[p6 + n];
      const float f7 = f[p7 + n];
      const float f8 = f[p8 + n];
      const float f9 = f[p9 + n];
      const float f10 = f[p10 + n];
      const float f11 = f[p11 + n];
      const float f12 = f[p12 + n];
      const float f13 = f[p13 + n];
      const float f14 = f[p14 + n];
      const float f15 = f[p15 + n];
      const float f16 = f[p16 + n];
      const float f17 = f[p17 + n];
      const float f18 = f[p18 + n];
      // Pressure (as density), momentum and stress.
      const float s78 = f7 + f8;
      const float s90 = f9 + f10;
      const float sxz = f11 + f12;
      const float szx = f13 + f14;
      const float syz = f15 + f16;
      const float szy = f17 + f18;
      const float axis1 = f1 + f2;
      const float axis3 = f3 + f4;
      const float axis5 = f5 + f6;
      const float xy = s78 + s90;
      const float xz = sxz + szx;
      const float yz = syz + szy;
      const float rho = f0 + axis1 + axis3 + axis5 + xy + xz + yz;
      const float u = f1 - f2 + (f7 - f8) + (f9 - f10) + (f11 - f12) + (f13 - f14);
      const float v = f3 - f4 + (f7 - f8) - (f9 - f10) + (f15 - f16) + (f17 - f18);
      const float w = f5 - f6 + (f11 - f12) - (f13 - f14) + (f15 - f16) - (f17 - f18);
      const float uu = u * u;
      const float vv = v * v;
      const float ww = w * w;
      float nxx = axis1 + xy + xz - uu;
      float nyy = axis3 + xy + yz - vv;
      float nzz = axis5 + xz + yz - ww;
      const float third = (nxx + nyy + nzz) * (1.0f / 3);
      nxx -= third;
      nyy -= third;
      nzz -= third;
      const float nxy = s78 - s90 - u * v;
      const float nxz = sxz - szx - u * w;
      const float nyz = syz - szy - v * w;
      const float norm = nxx * nxx + nyy * nyy + nzz * nzz + 2 * (nxy * nxy + nxz * nxz + nyz * nyz);
      const float tau0 = tauOf[layer + n];
      // 12 sqrt 2 / 9: see RESOLVED there.
      const float shear = std::sqrt(norm) - 1.8856181f * tau0 * (tau0 - 0.5f);
      const float tau = 0.5f * (tau0 + std::sqrt(tau0 * tau0 + eddy * (shear > 0 ? shear : 0)));
      const float keep = 1 - 1 / tau;
      const float kxx = keep * nxx;
      const float kyy = keep * nyy;
      const float kzz = keep * nzz;
      const float kxy = keep * nxy;
      const float kxz = keep * nxz;
      const float kyz = keep * nyz;
      const float axx = uu + kxx;
      const float ayy = vv + kyy;
      const float azz = ww + kzz;
      const float axy = u * v + kxy;
      const float axz = u * w + kxz;
      const float ayz = v * w + kyz;
      const float txxy = uu * v + 2 * u * kxy + v * kxx;
      const float txyy = vv * u + 2 * v * kxy + u * kyy;
      const float txxz = uu * w + 2 * u * kxz + w * kxx;
      const float txzz = ww * u + 2 * w * kxz + u * kzz;
      const float tyyz = vv * w + 2 * v * kyz + w * kyy;
      const float tyzz = ww * v + 2 * w * kyz + v * kzz;
      const float e = rho - 1.5f * (axx + ayy + azz);
      out[from + n] = e * (1.0f / 3);
      const float e18 = e * (1.0f / 18);
      const float evenX = e18 + 0.25f * axx;
      const float evenY = e18 + 0.25f * ayy;
      const float evenZ = e18 + 0.25f * azz;
      const float oddX = u * (1.0f / 6) - 0.5f * (txyy + txzz);
      const float oddY = v * (1.0f / 6) - 0.5f * (txxy + tyzz);
      const float oddZ = w * (1.0f / 6) - 0.5f * (txxz + tyyz);
      const int at = from + n;
      out[size + at] = evenX + oddX;
      out[2 * size + at] = evenX - oddX;
      out[3 * size + at] = evenY + oddY;
      out[4 * size + at] = evenY - oddY;
      out[5 * size + at] = evenZ + oddZ;
      out[6 * size + at] = evenZ - oddZ;
      const float e36 = 0.5f * e18;
      const float u12 = u * (1.0f / 12);
      const float v12 = v * (1.0f / 12);
      const float w12 = w * (1.0f / 12);
      const float evenXY = e36 + 0.125f * (axx + ayy);
      const float ox = u12 + 0.25f * txyy;
      const float oy = v12 + 0.25f * txxy;
      out[7 * size + at] = evenXY + 0.25f * axy + (ox + oy);
      out[8 * size + at] = evenXY + 0.25f * axy - (ox + oy);
      out[9 * size + at] = evenXY - 0.25f * axy + (ox - oy);
      out[10 * size + at] = evenXY - 0.25f * axy - (ox - oy);
      const float evenXZ = e36 + 0.125f * (axx + azz);
      const float px = u12 + 0.25f * txzz;
      const float pz = w12 + 0.25f * txxz;
      out[11 * size + at] = evenXZ + 0.25f * axz + (px + pz);
      out[12 * size + at] = evenXZ + 0.25f * axz - (px + pz);
      out[13 * size + at] = evenXZ - 0.25f * axz + (px - pz);
      out[14 * size + at] = evenXZ - 0.25f * axz - (px - pz);
      const float evenYZ = e36 + 0.125f * (ayy + azz);
      const float qy = v12 + 0.25f * tyzz;
      const float qz = w12 + 0.25f * tyyz;
      out[15 * size + at] = evenYZ + 0.25f * ayz + (qy + qz);
      out[16 * size + at] = evenYZ + 0.25f * ayz - (qy + qz);
      out[17 * size + at] = evenYZ - 0.25f * ayz + (qy - qz);
      out[18 * size + at] = evenYZ - 0.25f * ayz - (qy - qz);
    }
  }
}

int main() {
  const int nx = 28, ny = 28, nz = 136, deep = nz + 2;
  const int size = (nx + 2) * (ny + 2) * deep;
  std::vector<float> a(19 * size, 1e-4f), b(19 * size, 1e-4f), tau(nz, 0.51f);
  std::vector<int> spans;
  for (int x = 1; x <= nx; x++) {
    for (int y = 1; y <= ny; y++) {
      const int row = deep, wide = (ny + 2) * deep;
      for (int n : {(x * (ny + 2) + y) * deep + 1, nz, 0, -wide, wide, -row, row, -wide - row,
                    wide + row, -wide + row, wide - row})
        spans.push_back(n);
    }
  }
  double best = 0;
  for (int round = 0; round < 7; round++) {
    const auto began = std::chrono::steady_clock::now();
    for (int step = 0; step < 20; step++) {
      collide(size, spans.data(), (int)spans.size(), a.data(), b.data(), tau.data(), 0.06f);
      a.swap(b);
    }
    const std::chrono::duration<double> took = std::chrono::steady_clock::now() - began;
    const double rate = 20.0 * nx * ny * nz / took.count() / 1e6;
    if (rate > best) best = rate;
  }
  std::printf("%.1f million cell updates/s (%g)\n", best, a[size / 2]);
}
