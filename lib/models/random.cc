#include "models/random.h"

#include <Random123/philox.h>

#include <Random123/boxmuller.hpp>
#include <cmath>

namespace drystage::models {
namespace {

constexpr unsigned half_word = 32;

struct Words {
  std::uint64_t first;
  std::uint64_t second;
};

Words words_of(const RandomSource& source, std::uint32_t place) {
  using Philox = r123::Philox4x32;
  const auto low = [](std::uint64_t word) { return static_cast<std::uint32_t>(word); };
  const auto high = [](std::uint64_t word) {
    return static_cast<std::uint32_t>(word >> half_word);
  };
  const Philox::ctr_type counter{{low(source.trip), high(source.trip), source.stream, place}};
  const Philox::key_type key{{low(source.seed), high(source.seed)}};
  const Philox::ctr_type made = Philox()(counter, key);
  return {std::uint64_t{made[0]} << half_word | made[1],
          std::uint64_t{made[2]} << half_word | made[3]};
}

}  // namespace

double RandomSource::uniform(std::uint32_t place) const {
  // 52 bits, in the middle of their interval: never 0 and never 1.
  constexpr unsigned spare_bits = 12;
  constexpr double step = 0x1p-52;
  return (static_cast<double>(words_of(*this, place).first >> spare_bits) + 0.5) * step;
}

RandomSource::Pair RandomSource::normals(std::uint32_t place) const {
  const Words words = words_of(*this, place);
  const r123::double2 both = r123::boxmuller(words.first, words.second);
  return {.first = both.x, .second = both.y};
}

int poisson_quantile(double probability, double mean, int most) {
  double term = std::exp(-mean);
  double sum = term;
  int count = 0;
  while (count < most && probability > sum) {
    ++count;
    term *= mean / count;
    sum += term;
  }
  return count;
}

}  // namespace drystage::models
