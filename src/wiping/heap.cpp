// Linked into a program, this wipes every piece of memory as it is given back, whoever gives it:
// the core, Qt, SQLite. A name that was in a string, a widget or a document is then gone with it,
// and need not be hunted for in every type that may have held it. What is still held must be let go
// (Session::lock, BookView::lock); what is on the stack is wiped by crypto::wipeStack.
//
// glibc exports its own functions under second names, so that `free` and `realloc` can be put in
// front of them (glibc manual, "Replacing malloc"; the second names are not in it). Elsewhere, and
// under a sanitizer, which has a heap of its own, this file is empty.

#if defined(__GLIBC__) || __has_include(<gnu/libc-version.h>)
#ifndef GK_SANITIZED

#include <algorithm>
#include <cstddef>
#include <cstring>
#include <malloc.h>

extern "C" {

void __libc_free(void* memory);        // NOLINT(bugprone-reserved-identifier): glibc's name
void* __libc_malloc(std::size_t size); // NOLINT(bugprone-reserved-identifier): glibc's name

void free(void* memory) noexcept {
  if (memory == nullptr) return;
  ::explicit_bzero(memory, ::malloc_usable_size(memory));
  __libc_free(memory);
}

void* realloc(void* memory, std::size_t size) noexcept {
  if (memory == nullptr) return __libc_malloc(size);
  if (size == 0) {
    free(memory);
    return nullptr;
  }
  const auto had = ::malloc_usable_size(memory);
  if (size <= had && size >= had / 2) { // it stays where it is
    ::explicit_bzero(static_cast<char*>(memory) + size, had - size);
    return memory;
  }
  void* moved = __libc_malloc(size);
  if (moved == nullptr) return nullptr;
  std::memcpy(moved, memory, std::min(had, size));
  free(memory);
  return moved;
}

} // extern "C"

#endif
#endif
