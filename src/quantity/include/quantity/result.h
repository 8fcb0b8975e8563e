#pragma once

#include <string>
#include <tl/expected.hpp>

namespace ductwright {

// Why an operation at a layer's edge did not happen: one sentence that a person can act on.
struct Failure {
  std::string sentence;
};

// What a person can mend is a value; what only a programmer can mend is an assertion.
template <class T>
using Result = tl::expected<T, Failure>;

inline tl::unexpected<Failure> failure(std::string sentence) {
  return tl::make_unexpected(Failure{std::move(sentence)});
}

}  // namespace ductwright
