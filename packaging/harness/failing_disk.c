/* A disk that begins to fail under the register: writes and syncs of files named *.register* answer with an error
 * from the COUNTth on. Loaded below SQLite by LD_PRELOAD; everything else passes through.
 *   DISK_FAILS_AFTER=COUNT  DISK_FAILS_WITH=errno  DISK_FAILS_TIMES=how many (0: for good) */
#define _GNU_SOURCE
#include <dlfcn.h>
#include <errno.h>
#include <limits.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/types.h>
#include <unistd.h>

static long calls, failed;

static int fails(int fd)
{
    char link[64], name[PATH_MAX];
    const char *after = getenv("DISK_FAILS_AFTER"), *with = getenv("DISK_FAILS_WITH"), *times = getenv("DISK_FAILS_TIMES");
    if (!after || !with)
        return 0;
    snprintf(link, sizeof link, "/proc/self/fd/%d", fd);
    ssize_t length = readlink(link, name, sizeof name - 1);
    if (length < 0)
        return 0;
    name[length] = 0;
    if (!strstr(name, ".register"))
        return 0;
    if (++calls <= atol(after) || (times && atol(times) && failed >= atol(times)))
        return 0;
    failed++;
    errno = atoi(with);
    return 1;
}

#define REAL(name) ((__typeof__(&name))dlsym(RTLD_NEXT, #name))

ssize_t pwrite(int fd, const void *from, size_t count, off_t at) { return fails(fd) ? -1 : REAL(pwrite)(fd, from, count, at); }
ssize_t pwrite64(int fd, const void *from, size_t count, off64_t at) { return fails(fd) ? -1 : REAL(pwrite64)(fd, from, count, at); }
ssize_t write(int fd, const void *from, size_t count) { return fails(fd) ? -1 : REAL(write)(fd, from, count); }
int fsync(int fd) { return fails(fd) ? -1 : REAL(fsync)(fd); }
int fdatasync(int fd) { return fails(fd) ? -1 : REAL(fdatasync)(fd); }
int ftruncate(int fd, off_t length) { return fails(fd) ? -1 : REAL(ftruncate)(fd, length); }
int ftruncate64(int fd, off64_t length) { return fails(fd) ? -1 : REAL(ftruncate64)(fd, length); }
