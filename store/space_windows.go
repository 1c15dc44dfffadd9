package store

import "golang.org/x/sys/windows"

// freeBytes says how many bytes this user can still write below dir.
func freeBytes(dir string) (int64, error) {
	name, err := windows.UTF16PtrFromString(dir)
	if err != nil {
		return 0, err
	}
	var free, total, all uint64
	err = windows.GetDiskFreeSpaceEx(name, &free, &total, &all)
	return int64(free), err
}

// syncDir does nothing: the system keeps names with their files.
func syncDir(string) error { return nil }
