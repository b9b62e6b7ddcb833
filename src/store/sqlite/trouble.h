#pragma once

#include "base/files/files.h"
#include "base/result.h"

#include <exception>
#include <string_view>
#include <type_traits>
#include <utility>

struct sqlite3;

namespace gk::store {

/// Trouble on its way up inside this module. It never leaves: every public verb runs in `guarded`.
class Trouble final : public std::exception {
 public:
  explicit Trouble(base::Error error) : error_(std::move(error)) {}

  [[nodiscard]] const base::Error& error() const { return error_; }
  [[nodiscard]] const char* what() const noexcept override { return error_.detail.c_str(); }

 private:
  base::Error error_;
};

/// Throws what SQLite last reported on `db` as Trouble: SQLITE_FULL is `diskFull`; READONLY,
/// CANTOPEN and PERM are `storeReadOnly`, but for a journal to be played back `storeUnfinished`;
/// BUSY and LOCKED `storeInUse`; CORRUPT and NOTADB `storeDamaged`; INTERRUPT `workCanceled`; all
/// else `storeWriteFailed`. `code` is the extended result code. Calling SQLite wrongly (MISUSE,
/// RANGE) is a bug and aborts.
[[noreturn]] void throwTrouble(sqlite3* db, int code, std::string_view file);

/// `storeMoved`, of what was not written.
base::Error movedError(const base::Path& file);

namespace detail {

template <class T>
struct Bordered {
  using type = base::Result<T>;
};
template <>
struct Bordered<void> {
  using type = base::Result<base::Done>;
};
template <class T>
struct Bordered<base::Result<T>> {
  using type = base::Result<T>;
};

} // namespace detail

/// The module's border: runs `work` and turns Trouble into a Result. Work that gives nothing gives
/// Done, and work that gives a Result gives that Result.
template <class F>
auto guarded(F&& work) -> typename detail::Bordered<std::invoke_result_t<F>>::type {
  try {
    if constexpr (std::is_void_v<std::invoke_result_t<F>>) {
      std::forward<F>(work)();
      return base::Done{};
    } else {
      return std::forward<F>(work)();
    }
  } catch (const Trouble& trouble) {
    return trouble.error();
  }
}

} // namespace gk::store
