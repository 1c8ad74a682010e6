// NSGA-II of the library pagmo on one test problem, for comparison.
// Built and run by pagmo.bench.ts. Usage: pagmo PROBLEM POPULATION GENERATIONS SEED
// First line: CPU seconds of the evolution alone. Then the objectives of the final population.
#include <ctime>
#include <cstdio>
#include <cstdlib>
#include <string>

#include <pagmo/algorithm.hpp>
#include <pagmo/algorithms/nsga2.hpp>
#include <pagmo/population.hpp>
#include <pagmo/problem.hpp>
#include <pagmo/problems/dtlz.hpp>
#include <pagmo/problems/zdt.hpp>

static double cpu_seconds() {
  timespec t;
  clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
  return double(t.tv_sec) + 1e-9 * double(t.tv_nsec);
}

int main(int argc, char **argv) {
  if (argc != 5) return 2;
  const std::string name = argv[1];
  const unsigned size = unsigned(std::atoi(argv[2]));
  const unsigned generations = unsigned(std::atoi(argv[3]));
  const unsigned seed = unsigned(std::atoi(argv[4]));
  pagmo::problem problem{pagmo::zdt{1u, 30u}};
  if (name == "ZDT4") problem = pagmo::problem{pagmo::zdt{4u, 10u}};
  else if (name == "DTLZ2") problem = pagmo::problem{pagmo::dtlz{2u, 12u, 3u}};
  else if (name != "ZDT1") return 2;
  const double genes = double(problem.get_nx());
  pagmo::algorithm algorithm{pagmo::nsga2{generations, 0.9, 15.0, 1.0 / genes, 20.0, seed}};
  pagmo::population population{problem, size, seed};
  const double begin = cpu_seconds();
  population = algorithm.evolve(population);
  std::printf("%.9f\n", cpu_seconds() - begin);
  for (const auto &f : population.get_f()) {
    for (std::size_t k = 0; k < f.size(); ++k) std::printf(k ? " %.17g" : "%.17g", f[k]);
    std::printf("\n");
  }
  return 0;
}
