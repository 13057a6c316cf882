# For the groups of faults, long plans, paths and the package: where the programs are, a folder to try things in, a count of what was
# tried. Sourced with the build folder as $1.
here=$(cd "$(dirname "${BASH_SOURCE[0]}")" && pwd)
source_folder=$(cd "$here/../../.." && pwd)
[[ $# -ge 1 && -x $1/sim/tidemark ]] || { echo "usage: $0 BUILD, a build folder with the programs in it" >&2; exit 2; }
build=$(cd "$1" && pwd)
tidemark=$build/sim/tidemark
viewer=$build/viewer/tidemark-viewer
export TIDEMARK_PRESETS=$source_folder/presets OMP_WAIT_POLICY=passive SDL_VIDEODRIVER=dummy
unset OMP_NUM_THREADS XDG_CONFIG_HOME XDG_STATE_HOME
# In memory where there is room for it: hundreds of runs would wait for the disk most of their time.
free_mib=$(df -m --output=avail /dev/shm 2>/dev/null | tail -n 1)
runs_programs() { # a folder; where none may be run no library is loaded from either
    local program code=0
    program=$(mktemp -p "$1") && printf '#!/bin/sh\n' >"$program" && chmod +x "$program" && "$program" 2>/dev/null || code=1
    rm -f "$program"
    return $code
}
if [[ ${in_memory:-no} == yes && ${free_mib:-0} -ge 200 ]] && runs_programs /dev/shm; then scratch=$(mktemp -d -p /dev/shm); else scratch=$(mktemp -d); fi
trap 'rm -rf "$scratch"' EXIT
export HOME=$scratch/home
mkdir -p "$HOME"
cd "$scratch"

wrong=0
complain() { # what is wrong, and what there is to see of it
    wrong=$((wrong + 1))
    echo "$(basename "$0"): $1"
    [[ $# -lt 2 ]] || sed 's/^/    /' <<<"$2" | head -n 12
}

# The files of a folder with their bytes, one a line; hidden leftovers aside.
listing() { (cd "$1" && find . -type f -not -path './.tidemark-*' -print0 | sort -z | xargs -0r sha256sum); }
leftovers() { find "$1" -name '.tidemark-*' | wc -l; }

made() { "${CXX:-c++}" -std=c++20 -O1 "$@"; }

# A plan of a small sheet: a wetted sky with a wash on it, hills by a mask, dry at the end. $2: its strength.
small_plan() {
    mkdir -p "$1/masks"
    cp "$source_folder/presets/plans/two-pears/masks/table.png" "$1/masks/hills.png"
    cat >"$1/plan.toml" <<END
tidemark = 1
[sheet]
size_mm = [150, 110]
paper = "cold-pressed-185"
room = { humidity_pct = 40 }
tilt_deg = 0
[mix.blue]
PB29 = ${2:-1.5}
[[step]]
name = "sky"
do = "wash"
mix = "blue"
film_um = 60
pace_cm2_s = 60
[[step]]
name = "hills"
do = "wash"
mask = "masks/hills.png"
mix = "blue"
film_um = 50
pace_cm2_s = 60
after = "sky"
wait = "1:00"
[[want]]
between = ["hills", "sky"]
edge = "soft"
END
}
