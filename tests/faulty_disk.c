/* A disk that fails as tests tell it, for LD_PRELOAD.
 *
 * Watches files whose path starts with $FAULTY_DISK. Files in $FAULTY_CONTROL turn faults on:
 *   sync_fails   fsync and fdatasync return EIO
 *   full         writes return ENOSPC
 *   remember     after each successful sync the file is copied to $FAULTY_CONTROL/<name>.synced:
 *                what a power cut at that moment would surely leave behind
 */
#define _GNU_SOURCE
#include <dlfcn.h>
#include <errno.h>
#include <fcntl.h>
#include <limits.h>
#include <pthread.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/sendfile.h>
#include <sys/stat.h>
#include <sys/syscall.h>
#include <unistd.h>

static int control(const char *name) {
    const char *folder = getenv("FAULTY_CONTROL");
    char path[PATH_MAX];
    if (!folder) return 0;
    snprintf(path, sizeof path, "%s/%s", folder, name);
    return access(path, F_OK) == 0;
}

static int watched(int fd, char *path) {
    const char *start = getenv("FAULTY_DISK");
    char link[64];
    ssize_t length;
    if (!start) return 0;
    snprintf(link, sizeof link, "/proc/self/fd/%d", fd);
    length = readlink(link, path, PATH_MAX - 1);
    if (length < 0) return 0;
    path[length] = 0;
    return strncmp(path, start, strlen(start)) == 0 && !strstr(path, "-shm");
}

static void remember(const char *path) {
    char part[PATH_MAX], whole[PATH_MAX];
    const char *name = strrchr(path, '/') + 1;
    struct stat about;
    off_t place = 0;
    int from, to;
    snprintf(part, sizeof part, "%s/%s.part", getenv("FAULTY_CONTROL"), name);
    snprintf(whole, sizeof whole, "%s/%s.synced", getenv("FAULTY_CONTROL"), name);
    from = open(path, O_RDONLY);
    to = open(part, O_WRONLY | O_CREAT | O_TRUNC, 0600);
    fstat(from, &about);
    while (place < about.st_size && sendfile(to, from, &place, about.st_size - place) > 0) { }
    close(from);
    close(to);
    rename(part, whole);
}

/* One thread syncs and copies at a time: two would write one copy, or put an older one over a newer, and show a disk
 * that never was. */
static pthread_mutex_t copying = PTHREAD_MUTEX_INITIALIZER;

static int synced(int fd, long number) {
    char path[PATH_MAX];
    int mine = watched(fd, path), result;
    if (mine && control("sync_fails")) { errno = EIO; return -1; }
    pthread_mutex_lock(&copying);
    result = (int)syscall(number, fd);
    if (mine && result == 0 && control("remember")) remember(path);
    pthread_mutex_unlock(&copying);
    return result;
}

int fsync(int fd) { return synced(fd, SYS_fsync); }
int fdatasync(int fd) { return synced(fd, SYS_fdatasync); }

static ssize_t put(int fd, const void *data, size_t size, off_t place) {
    char path[PATH_MAX];
    if (watched(fd, path) && control("full")) { errno = ENOSPC; return -1; }
    return syscall(SYS_pwrite64, fd, data, size, place);
}

ssize_t pwrite(int fd, const void *data, size_t size, off_t place) { return put(fd, data, size, place); }
ssize_t pwrite64(int fd, const void *data, size_t size, off64_t place) { return put(fd, data, size, place); }
