// Preloaded into the program: counts the calls that touch files below FAULT_BELOW and, at
// number FAULT_AT, fails them (once, or all from there on, or those of one kind) or kills the
// program, before the call or in the middle of a write. What calls below FAULT_DISK did, and
// what was told, goes into FAULT_LOG, one record a call.
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
#include <sys/syscall.h>
#include <unistd.h>

static int count;

static int within(const char *path, const char *variable) {
    const char *folder = getenv(variable);
    return folder && path && !strncmp(path, folder, strlen(folder));
}

static int below(const char *path) { return within(path, "FAULT_BELOW"); }

static const char *path_of(int fd, char path[4096]) {
    char link[64];
    snprintf(link, sizeof link, "/proc/self/fd/%d", fd);
    ssize_t length = readlink(link, path, 4095);
    path[length < 0 ? 0 : length] = 0;
    return path;
}

static int below_fd(int fd) {
    char path[4096];
    return below(path_of(fd, path));
}

// One record: a line of words, then so many bytes, in one call so that threads do not mix.
static void record(const char *words, const void *bytes, size_t length) {
    static int log = -2;
    const char *name = getenv("FAULT_LOG");
    if (!name) return;
    if (log == -2) log = syscall(SYS_open, name, O_CREAT | O_APPEND | O_WRONLY | O_CLOEXEC, 0600);
    size_t head = strlen(words);
    char *text = malloc(head + length + 1);
    memcpy(text, words, head);
    if (length) memcpy(text + head, bytes, length);
    text[head + length] = '\n';
    if (syscall(SYS_write, log, text, head + length + 1) < 0) abort();
    free(text);
}

static void record_fd(const char *what, int fd, const char *rest, const void *bytes,
                      size_t length) {
    char path[4096], words[256];
    struct stat about;
    int error = errno;
    if (within(path_of(fd, path), "FAULT_DISK") && !fstat(fd, &about)) {
        snprintf(words, sizeof words, "%s %lu %s\n", what, (unsigned long)about.st_ino, rest);
        record(words, bytes, length);
    }
    errno = error;
}

static void record_path(const char *what, const char *path, const char *to) {
    char words[9000];
    struct stat about = {0};
    int error = errno;
    if (within(path, "FAULT_DISK")) {
        stat(to, &about);
        snprintf(words, sizeof words, "%s %lu %s %s\n", what, (unsigned long)about.st_ino, path, to);
        record(words, 0, 0);
    }
    errno = error;
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
    // The next one too, which would have taken back what this one did.
    if (!strcmp(how, "pair") && (number == atoi(at) || number == atoi(at) + 1)) return errno = EIO, 1;
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
    int fd = real(path, flags, mode);
    if (fd >= 0 && flags & O_CREAT) record_path("name", path, path);
    return fd;
}

static ssize_t put(int fd, const void *bytes, size_t length) {
    REAL(write);
    ssize_t done = real(fd, bytes, length);
    char words[64];
    if (done > 0 && fd > 2) {
        snprintf(words, sizeof words, "%ld %ld", (long)lseek64(fd, 0, SEEK_CUR) - done, done);
        record_fd("write", fd, words, bytes, done);
    } else if (done > 0 && fd > 0) {
        snprintf(words, sizeof words, "%s %ld\n", fd == 1 ? "out" : "err", done);
        record(words, bytes, done);
    }
    return done;
}

ssize_t write(int fd, const void *bytes, size_t length) {
    int what = fd > 2 && below_fd(fd) ? fault() : 0;
    // A full disk takes a part before it refuses.
    if (what == 1 && length > 1 && errno == ENOSPC) {
        if (put(fd, bytes, length / 2) < 0) return -1;
        return errno = ENOSPC, -1;
    }
    if (what == 1) return -1;
    if (what == 2) {
        if (put(fd, bytes, length / 2) < 0) abort();
        kill(getpid(), SIGKILL);
    }
    return put(fd, bytes, length);
}

// What a failed flush has not put on the disk counts as written: Linux flushes it no more.
static int flush(int fd, int (*real)(int)) {
    if (below_fd(fd) && fault() == 1) return record_fd("lose", fd, "", 0, 0), -1;
    int done = real(fd);
    if (!done) record_fd("flush", fd, "", 0, 0);
    return done;
}
int fsync(int fd) { REAL(fsync); return flush(fd, real); }
int fdatasync(int fd) { REAL(fdatasync); return flush(fd, real); }

int ftruncate64(int fd, off64_t length) {
    char words[64];
    REAL(ftruncate64);
    if (below_fd(fd) && fault() == 1) return -1;
    int done = real(fd, length);
    snprintf(words, sizeof words, "%ld", (long)length);
    if (!done) record_fd("cut", fd, words, 0, 0);
    return done;
}

int fchmod(int fd, mode_t mode) {
    REAL(fchmod);
    if (below_fd(fd) && fault() == 1) return -1;
    return real(fd, mode);
}

int rename(const char *path, const char *to) {
    REAL(rename);
    if (below(path) && fault() == 1) return -1;
    int done = real(path, to);
    if (!done) record_path("rename", path, to);
    return done;
}

int unlink(const char *path) {
    REAL(unlink);
    if (below(path) && fault() == 1) return -1;
    int done = real(path);
    if (!done) record_path("unlink", path, "");
    return done;
}

int rmdir(const char *path) {
    REAL(rmdir);
    if (below(path) && fault() == 1) return -1;
    int done = real(path);
    if (!done) record_path("unlink", path, "");
    return done;
}

int mkdir(const char *path, mode_t mode) {
    REAL(mkdir);
    if (below(path) && fault() == 1) return -1;
    int done = real(path, mode);
    if (!done) record_path("mkdir", path, path);
    return done;
}
