// Preloaded into the program: counts the calls that touch files below FAULT_BELOW and, at
// number FAULT_AT, fails them (once, or all from there on) or kills the program, before the
// call or in the middle of a write. At its end the program's count is in FAULT_COUNT.
#define _GNU_SOURCE
#include <dlfcn.h>
#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <stdarg.h>
#include <stdlib.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static int count;

static int below(const char *path) {
    const char *folder = getenv("FAULT_BELOW");
    return folder && path && !strncmp(path, folder, strlen(folder));
}

static int below_fd(int fd) {
    char link[64], path[4096];
    snprintf(link, sizeof link, "/proc/self/fd/%d", fd);
    ssize_t length = readlink(link, path, sizeof path - 1);
    if (length < 0) return 0;
    path[length] = 0;
    return below(path);
}

// What is to be done with this call: 0 lets it pass, 1 fails it, 2 kills halfway.
static int fault(void) {
    const char *at = getenv("FAULT_AT"), *how = getenv("FAULT_HOW");
    int number = __sync_add_and_fetch(&count, 1);
    if (!at || !how) return 0;
    if (number == atoi(at)) {
        const char *reached = getenv("FAULT_REACHED");
        int fd = reached ? (int)((int (*)(const char *, int, ...))dlsym(RTLD_NEXT, "open64"))(
                               reached, O_CREAT | O_WRONLY, 0600) : -1;
        if (fd >= 0) close(fd);
        if (!strcmp(how, "kill")) kill(getpid(), SIGKILL);
        if (!strcmp(how, "tear")) return 2;
    }
    if (!strcmp(how, "fail") && number == atoi(at)) return errno = EIO, 1;
    if (!strcmp(how, "full") && number >= atoi(at)) return errno = ENOSPC, 1;
    return 0;
}

#define REAL(name) __typeof__(&name) real = (__typeof__(&name))dlsym(RTLD_NEXT, #name)

int open64(const char *path, int flags, ...) {
    va_list list;
    va_start(list, flags);
    mode_t mode = va_arg(list, mode_t);
    va_end(list);
    REAL(open64);
    if (below(path) && fault() == 1) return -1;
    return real(path, flags, mode);
}

ssize_t write(int fd, const void *bytes, size_t length) {
    REAL(write);
    int what = fd > 2 && below_fd(fd) ? fault() : 0;
    // A full disk takes a part before it refuses.
    if (what == 1 && length > 1 && errno == ENOSPC) {
        if (real(fd, bytes, length / 2) < 0) return -1;
        return errno = ENOSPC, -1;
    }
    if (what == 1) return -1;
    if (what == 2) {
        if (real(fd, bytes, length / 2) < 0) abort();
        kill(getpid(), SIGKILL);
    }
    return real(fd, bytes, length);
}

#define OF_FD(name, parameters, arguments)            \
    int name parameters {                             \
        REAL(name);                                   \
        if (below_fd(fd) && fault() == 1) return -1;  \
        return real arguments;                        \
    }
#define OF_PATH(name, parameters, arguments)          \
    int name parameters {                             \
        REAL(name);                                   \
        if (below(path) && fault() == 1) return -1;   \
        return real arguments;                        \
    }
OF_FD(fsync, (int fd), (fd))
OF_FD(fdatasync, (int fd), (fd))
OF_FD(ftruncate64, (int fd, off64_t length), (fd, length))
OF_FD(fchmod, (int fd, mode_t mode), (fd, mode))
OF_PATH(rename, (const char *path, const char *to), (path, to))
OF_PATH(unlink, (const char *path), (path))
OF_PATH(mkdir, (const char *path, mode_t mode), (path, mode))
