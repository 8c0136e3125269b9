// A worker that does nothing: the check of this device registers it to see whether the browser lets it, and takes it away again.
