/// Laid under a program (LD_PRELOAD), makes one of its calls to the system go wrong at its nth time:
///
///   FAULT_CALL=rename FAULT_AT=3 FAULT_DO=kill        the program is ended before the third rename, as by kill -9
///   FAULT_CALL=write FAULT_AT=1+ FAULT_DO=ENOSPC      every write fails from the first on
///
/// Calls: open (for writing), write (to a file, not to a standard stream), fsync, mkdir, mkdtemp, rename. What they fail with:
/// ENOSPC, EROFS, EIO, EDQUOT. A call that never comes does no harm: whoever tries all n sees that the program ended well.
#include <dlfcn.h>
#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <atomic>
#include <cerrno>
#include <csignal>
#include <cstdarg>
#include <cstdlib>
#include <cstring>

namespace {

std::atomic<int> met{0};

int error_named(const char* name) {
    return std::strcmp(name, "ENOSPC") == 0 ? ENOSPC : std::strcmp(name, "EROFS") == 0 ? EROFS : std::strcmp(name, "EDQUOT") == 0 ? EDQUOT : EIO;
}

/// 0: the call is made; else the error that it fails with.
int fault(const char* call) {
    const char *wanted = std::getenv("FAULT_CALL"), *at = std::getenv("FAULT_AT"), *what = std::getenv("FAULT_DO");
    if (wanted == nullptr || at == nullptr || what == nullptr || std::strcmp(wanted, call) != 0) return 0;
    const int n = ++met, first = std::atoi(at);
    if (n != first && !(n > first && std::strchr(at, '+') != nullptr)) return 0;
    if (std::strcmp(what, "kill") == 0) kill(getpid(), SIGKILL);
    return error_named(what);
}

template <class Function> Function real(const char* name) { return reinterpret_cast<Function>(dlsym(RTLD_NEXT, name)); }

} // namespace

extern "C" {

ssize_t write(int file, const void* bytes, size_t count) {
    static const auto call = real<ssize_t (*)(int, const void*, size_t)>("write");
    if (file > 2)
        if (const int error = fault("write")) return errno = error, -1;
    return call(file, bytes, count);
}

int fsync(int file) {
    static const auto call = real<int (*)(int)>("fsync");
    if (const int error = fault("fsync")) return errno = error, -1;
    return call(file);
}

int rename(const char* from, const char* to) {
    static const auto call = real<int (*)(const char*, const char*)>("rename");
    if (const int error = fault("rename")) return errno = error, -1;
    return call(from, to);
}

int mkdir(const char* folder, mode_t mode) {
    static const auto call = real<int (*)(const char*, mode_t)>("mkdir");
    if (const int error = fault("mkdir")) return errno = error, -1;
    return call(folder, mode);
}

char* mkdtemp(char* name) {
    static const auto call = real<char* (*)(char*)>("mkdtemp");
    if (const int error = fault("mkdtemp")) return errno = error, nullptr;
    return call(name);
}

int open(const char* file, int flags, ...) {
    static const auto call = real<int (*)(const char*, int, ...)>("open");
    va_list more;
    va_start(more, flags);
    const mode_t mode = (flags & (O_CREAT | O_TMPFILE)) != 0 ? va_arg(more, mode_t) : 0;
    va_end(more);
    if ((flags & O_ACCMODE) != O_RDONLY)
        if (const int error = fault("open")) return errno = error, -1;
    return call(file, flags, mode);
}

} // extern "C"
