#pragma once

#include "base/random.h"
#include "base/result.h"

#include <cstddef>
#include <cstdint>
#include <memory>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace gk::crypto {

/// Overwrites the text's bytes where they lie and empties it.
void wipe(std::string& text);
void wipe(std::vector<std::uint8_t>& bytes);

/// Overwrites the part of the stack that calls before this one have used and left.
void wipeStack();

/// Whether the bytes are the same, in a time that does not tell where they differ.
bool isSame(std::span<const std::uint8_t> one, std::span<const std::uint8_t> other);

/// A passphrase, key or opened plaintext: between guard pages, kept out of swap where the system
/// allows it, wiped when it goes. Cannot be copied; moved from, it is empty.
class Secret {
 public:
  /// So many zero bytes, to be filled in place.
  static Secret ofSize(std::size_t size);
  static Secret copyOf(std::span<const std::uint8_t> bytes);
  /// The text's bytes as they are. The caller's own copy stays where it was; see `taking`.
  static Secret copyOf(std::string_view text);
  /// As copyOf, and wipes and empties `text`.
  static Secret taking(std::string& text);

  Secret(Secret&& other) noexcept;
  Secret& operator=(Secret&& other) noexcept;
  Secret(const Secret&) = delete;
  Secret& operator=(const Secret&) = delete;
  ~Secret() = default;

  [[nodiscard]] std::span<std::uint8_t> bytes() { return {memory_.get(), size_}; }
  [[nodiscard]] std::span<const std::uint8_t> bytes() const { return {memory_.get(), size_}; }
  [[nodiscard]] std::size_t size() const { return size_; }

  /// From now on not even this program can read the bytes, until `expose`: a stray pointer or a
  /// memory dump of what is readable does not meet them.
  void forbid();
  void expose();

 private:
  explicit Secret(std::size_t size);

  struct Wipe {
    void operator()(std::uint8_t* memory) const noexcept;
  };
  std::unique_ptr<std::uint8_t, Wipe> memory_;
  std::size_t size_ = 0;
};

/// 256 secret bits.
class Key {
 public:
  static constexpr std::size_t size = 32;

  static Key random(base::Random& random);
  /// Fails with `vaultDamaged` unless there are 32 bytes.
  static base::Result<Key> of(Secret bytes);

  /// Precondition: not moved from.
  [[nodiscard]] std::span<const std::uint8_t, size> bytes() const;
  /// As Secret; `bytes` may not be asked between the two.
  void forbid() { secret_.forbid(); }
  void expose() { secret_.expose(); }

 private:
  explicit Key(Secret secret) : secret_(std::move(secret)) {}
  Secret secret_;
};

} // namespace gk::crypto
