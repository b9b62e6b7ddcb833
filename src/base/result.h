#pragma once

#include "base/contract.h"
#include "base/error.h"

#include <type_traits>
#include <utility>
#include <variant>

namespace gk::base {

/// A value or an Error, with the names of std::expected (GCC 12 offers that only from C++23).
/// Reading the side that is not there is a bug and aborts.
template <class T>
class [[nodiscard]] Result {
 public:
  using value_type = T;

  Result(T value) : state_(std::in_place_index<0>, std::move(value)) {}
  Result(Error error) : state_(std::in_place_index<1>, std::move(error)) {}

  [[nodiscard]] bool has_value() const { return state_.index() == 0; }
  explicit operator bool() const { return has_value(); }

  T& value() & { return get(); }
  const T& value() const& { return constGet(); }
  T&& value() && { return std::move(get()); }

  T& operator*() & { return get(); }
  const T& operator*() const& { return constGet(); }
  T&& operator*() && { return std::move(get()); }
  T* operator->() { return &get(); }
  const T* operator->() const { return &constGet(); }

  [[nodiscard]] const Error& error() const {
    require(!has_value(), "error() of a Result that holds a value");
    return *std::get_if<1>(&state_);
  }

  [[nodiscard]] T value_or(T other) const& { return has_value() ? constGet() : std::move(other); }

  template <class F>
  auto and_then(F&& next) && -> std::invoke_result_t<F, T&&> {
    if (!has_value()) return error();
    return std::forward<F>(next)(std::move(get()));
  }

  template <class F>
  auto transform(F&& next) && -> Result<std::invoke_result_t<F, T&&>> {
    if (!has_value()) return error();
    return std::forward<F>(next)(std::move(get()));
  }

 private:
  T& get() {
    require(has_value(), "value() of a Result that holds an error");
    return *std::get_if<0>(&state_);
  }
  const T& constGet() const {
    require(has_value(), "value() of a Result that holds an error");
    return *std::get_if<0>(&state_);
  }

  std::variant<T, Error> state_;
};

/// Success without a value.
struct Done {
  bool operator==(const Done&) const = default;
};

} // namespace gk::base
