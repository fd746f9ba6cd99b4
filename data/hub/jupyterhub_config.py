"""JupyterHub for one class on one Linux machine. README.md beside this file says how to set it up."""

import os
import pwd
import resource
import sys
from pathlib import Path

from jupyterhub.spawner import LocalProcessSpawner

PLACE = Path(os.environ.get("TURBOMATH_HUB", "/srv/turbomath"))  # what belongs to this class
WORK = PLACE / "work"  # a folder for each user in it
RUNTIME = PLACE / "run"  # the same for keys and sockets; short, since no path of a socket may pass 107 letters
MEMORY = 2 * 1024**3  # bytes that one process of a student may take; a lesson takes about a twentieth of it
PROCESSES = 400  # processes and threads of one student
IDLE = 3600  # seconds after its last window is shut until a lesson's Python is ended

c = get_config()  # noqa: F821


def make_folders(spawner):
    """Make the user's folders, where no user can put anything in their place; nobody else sees into them."""
    user = pwd.getpwnam(spawner.user.name)
    for place in (WORK, RUNTIME):
        place.mkdir(exist_ok=True)
        place.chmod(0o711)  # to pass through, not to look into
        folder = place / user.pw_name
        folder.mkdir(mode=0o700, exist_ok=True)
        os.chown(folder, user.pw_uid, user.pw_gid)


def own(place):
    """Return what tells each user's own folder in a place."""
    return lambda spawner: str(place / spawner.user.name)


class LimitedSpawner(LocalProcessSpawner):
    """A student's server: a process of that user, with limits, behind the hub when both want the processor."""

    def make_preexec_fn(self, name):
        """Return what the new process does before it starts."""
        become_user = super().make_preexec_fn(name)

        def prepared():
            resource.setrlimit(resource.RLIMIT_DATA, (MEMORY, MEMORY))
            resource.setrlimit(resource.RLIMIT_NPROC, (PROCESSES, PROCESSES))
            os.nice(5)
            become_user()
            os.umask(0o077)  # what it writes is for its user alone

        return prepared


# Who comes in: users of this machine, with their password there, who are in the group "turbomath".
c.JupyterHub.authenticator_class = "pam"
c.PAMAuthenticator.allowed_groups = {"turbomath"}

# Where: below a path of its own, so that other things can stand on the same machine. README.md tells of https.
c.JupyterHub.bind_url = "http://:8000/class/"

# What each user gets: a server as that user, which opens with the lessons.
c.JupyterHub.spawner_class = LimitedSpawner
c.Spawner.cmd = [str(Path(sys.prefix) / "bin" / "jupyterhub-singleuser")]
c.Spawner.pre_spawn_hook = make_folders
c.Spawner.notebook_dir = str(WORK / "{username}")
c.Spawner.default_url = "/turbomath"
c.Spawner.environment = {
    "TURBOMATH_WORK": own(WORK),
    "JUPYTER_RUNTIME_DIR": own(RUNTIME),
    "OMP_NUM_THREADS": "1",
    "OPENBLAS_NUM_THREADS": "1",
}
c.Spawner.start_timeout = c.Spawner.http_timeout = 300  # s, as a whole class comes at once
c.Spawner.args = [
    "--KernelManager.transport=ipc",  # by files of that user: every user of a machine can listen at its TCP ports
    # A lesson that stands in a window goes on. One that nobody looks at ends, and later its server. Nothing is lost:
    # what was entered is on the disk, and stands there again when the lesson is opened.
    f"--MappingKernelManager.cull_idle_timeout={IDLE}",
    "--MappingKernelManager.cull_interval=60",
    f"--ServerApp.shutdown_no_activity_timeout={IDLE}",
]
