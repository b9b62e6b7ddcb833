#include "crypto/secret.h"

#include "crypto/ready.h"

#include <sodium.h>

#include <algorithm>
#include <cstring>
#include <utility>

namespace gk::crypto {

void wipe(std::string& text) {
  sodium_memzero(text.data(), text.size());
  text.clear();
}

bool isSame(std::span<const std::uint8_t> one, std::span<const std::uint8_t> other) {
  return one.size() == other.size() && sodium_memcmp(one.data(), other.data(), one.size()) == 0;
}

void wipe(std::vector<std::uint8_t>& bytes) {
  sodium_memzero(bytes.data(), bytes.size());
  bytes.clear();
}

void wipeStack() {
  constexpr std::size_t deepest = std::size_t{512} * 1024; // of a thread's 8 MiB
  sodium_stackzero(deepest);
}

void Secret::Wipe::operator()(std::uint8_t* memory) const noexcept {
  sodium_free(memory);
}

Secret::Secret(std::size_t size) : size_(size) {
  makeReady();
  memory_.reset(static_cast<std::uint8_t*>(sodium_malloc(size)));
  base::require(memory_ != nullptr, "no memory for a secret");
  sodium_memzero(memory_.get(), size);
}

Secret::Secret(Secret&& other) noexcept
    : memory_(std::move(other.memory_)), size_(std::exchange(other.size_, 0)) {}

Secret& Secret::operator=(Secret&& other) noexcept {
  memory_ = std::move(other.memory_);
  size_ = std::exchange(other.size_, 0);
  return *this;
}

void Secret::forbid() {
  if (memory_) base::require(sodium_mprotect_noaccess(memory_.get()) == 0, "memory not guarded");
}

void Secret::expose() {
  if (memory_) base::require(sodium_mprotect_readwrite(memory_.get()) == 0, "memory not opened");
}

Secret Secret::ofSize(std::size_t size) {
  return Secret(size);
}

Secret Secret::copyOf(std::span<const std::uint8_t> bytes) {
  Secret secret(bytes.size());
  std::copy(bytes.begin(), bytes.end(), secret.memory_.get());
  return secret;
}

Secret Secret::copyOf(std::string_view text) {
  Secret secret(text.size());
  if (!text.empty()) std::memcpy(secret.memory_.get(), text.data(), text.size());
  return secret;
}

Secret Secret::taking(std::string& text) {
  Secret secret = copyOf(text);
  wipe(text);
  return secret;
}

Key Key::random(base::Random& random) {
  Secret secret = Secret::ofSize(size);
  random.fill(secret.bytes());
  return Key(std::move(secret));
}

base::Result<Key> Key::of(Secret bytes) {
  if (bytes.size() != size)
    return base::Error{base::ErrorCode::vaultDamaged,
                       "a key has " + std::to_string(bytes.size()) +
                           " bytes where 32 belong; restore the book from a backup"};
  return Key(std::move(bytes));
}

std::span<const std::uint8_t, Key::size> Key::bytes() const {
  base::require(secret_.size() == size, "a key was used after it was moved away");
  return secret_.bytes().first<size>();
}

} // namespace gk::crypto
