/// Reads a plan file (TOML, version 1) with its masks and reference.
///
/// Every problem is found in one go and reported by file, line and key, with what is allowed and the nearest valid
/// name: unknown or repeated keys, wrong kinds, values out of range or not finite, missing, empty or misshapen masks,
/// paths that leave the plan's folder, unknown pigments, papers, rooms, mixes, steps, areas, steps that wait on each
/// other, times that run backwards. Errors: BadInput.
///
/// Always there: the mix "water" (index 0) and the area "sheet", the whole sheet. A step's mask makes an area of its
/// own, named by the file's stem. A plan file is at most 1 MiB, a mask at most 16 million pixels.
///
/// A plan may come from anybody: masks and pictures are read from its own folder and what is below it, links followed, and
/// from nowhere else unless FilesFrom says so; only from files, since a pipe may never end. Nothing in a plan is run, and
/// nothing it names is written to.
#pragma once
#include "plan/files_from.h"
#include "plan/plan.h"

#include <string_view>

namespace tidemark::plan {

Plan read_plan(const std::filesystem::path& file, const materials::Presets&, FilesFrom = FilesFrom::folder);

/// From a text that has not been saved as `file` yet; masks and reference lie where that file's would. `earlier`: a plan read
/// before whose masks and reference are taken where it has the same files, so that they are not read again; else null.
Plan read_plan_text(std::string_view text, const std::filesystem::path& file, const materials::Presets&, const Plan* earlier = nullptr,
                    FilesFrom = FilesFrom::folder);

} // namespace tidemark::plan
