/// What the viewer remembers: settings in $XDG_CONFIG_HOME/tidemark/viewer.toml, recent plans and recovery copies in
/// $XDG_STATE_HOME/tidemark/. Read leniently (what can't be understood is passed over), written whole.
#pragma once
#include <filesystem>
#include <string>
#include <vector>

namespace tidemark::viewer {

struct Settings {
    int window_width = 1280, window_height = 800;
    bool maximised = false;
    int text_percent = 100;          ///< 80 ... 200
    bool dark = false;               ///< the surroundings; the sheet's surround stays neutral
    double cell_mm = 0.5;            ///< of the true run
    int memory_mb = 256;             ///< for moments
    double screen_dpi = 0;           ///< 0: as the system says
};

class Memory {
  public:
    Memory();                        ///< the XDG places; nothing is made before something is written
    Memory(std::filesystem::path config_folder, std::filesystem::path state_folder); ///< for tests

    Settings settings() const;
    void save(const Settings&) const; ///< never throws: a full disk must not stop a painter
    std::vector<std::filesystem::path> recent() const; ///< newest first, those that still exist, at most 12
    void add_recent(const std::filesystem::path& plan) const;
    std::filesystem::path recovery_folder() const;

  private:
    std::filesystem::path config_, state_;
};

} // namespace tidemark::viewer
