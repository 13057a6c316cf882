#include "viewer/window/joint.h"

#include <fmt/format.h>
#include <imgui.h>

#include <cfloat>
#include <cmath>

#include "grid/problem.h"

namespace tidemark::viewer {

namespace {

SDL_Point output_size(SDL_Renderer* renderer) {
    SDL_Point p{1, 1};
    SDL_GetRendererOutputSize(renderer, &p.x, &p.y);
    return p;
}

/// Pixels of the output a unit of the window.
float density(SDL_Window* window, SDL_Renderer* renderer) {
    int w = 1, h = 1;
    SDL_GetWindowSize(window, &w, &h);
    return w > 0 ? static_cast<float>(output_size(renderer).x) / static_cast<float>(w) : 1;
}

int button_of(const SDL_MouseButtonEvent& e) {
    return e.button == SDL_BUTTON_LEFT ? 0 : e.button == SDL_BUTTON_RIGHT ? 1 : e.button == SDL_BUTTON_MIDDLE ? 2 : -1;
}

const char* from_clipboard(void*) {
    static thread_local std::unique_ptr<char, decltype(&SDL_free)> kept(nullptr, SDL_free);
    kept.reset(SDL_GetClipboardText());
    return kept.get();
}

} // namespace

Joint::Joint(SDL_Window* window, SDL_Renderer* renderer) : window_(window), renderer_(renderer) {
    ImGuiIO& io = ImGui::GetIO();
    io.IniFilename = nullptr; // nothing is left in the painter's folder
    io.BackendFlags |= ImGuiBackendFlags_RendererHasVtxOffset;
    io.ConfigFlags |= ImGuiConfigFlags_NavEnableKeyboard;
    const std::pair<int, SDL_Scancode> keys[] = {
        {ImGuiKey_Tab, SDL_SCANCODE_TAB},         {ImGuiKey_LeftArrow, SDL_SCANCODE_LEFT},
        {ImGuiKey_RightArrow, SDL_SCANCODE_RIGHT}, {ImGuiKey_UpArrow, SDL_SCANCODE_UP},
        {ImGuiKey_DownArrow, SDL_SCANCODE_DOWN},  {ImGuiKey_PageUp, SDL_SCANCODE_PAGEUP},
        {ImGuiKey_PageDown, SDL_SCANCODE_PAGEDOWN}, {ImGuiKey_Home, SDL_SCANCODE_HOME},
        {ImGuiKey_End, SDL_SCANCODE_END},         {ImGuiKey_Insert, SDL_SCANCODE_INSERT},
        {ImGuiKey_Delete, SDL_SCANCODE_DELETE},   {ImGuiKey_Backspace, SDL_SCANCODE_BACKSPACE},
        {ImGuiKey_Space, SDL_SCANCODE_SPACE},     {ImGuiKey_Enter, SDL_SCANCODE_RETURN},
        {ImGuiKey_Escape, SDL_SCANCODE_ESCAPE},   {ImGuiKey_KeyPadEnter, SDL_SCANCODE_KP_ENTER},
        {ImGuiKey_A, SDL_SCANCODE_A},             {ImGuiKey_C, SDL_SCANCODE_C},
        {ImGuiKey_V, SDL_SCANCODE_V},             {ImGuiKey_X, SDL_SCANCODE_X},
        {ImGuiKey_Y, SDL_SCANCODE_Y},             {ImGuiKey_Z, SDL_SCANCODE_Z}};
    for (const auto& [theirs, ours] : keys)
        io.KeyMap[theirs] = ours;
    io.SetClipboardTextFn = [](void*, const char* text) { SDL_SetClipboardText(text); };
    io.GetClipboardTextFn = from_clipboard;
    io.ClipboardUserData = nullptr;
}

void Joint::place_pointer(int x, int y) {
    const float d = density(window_, renderer_);
    ImGui::GetIO().MousePos = ImVec2(static_cast<float>(x) * d, static_cast<float>(y) * d);
}

void Joint::on_event(const SDL_Event& e) {
    ImGuiIO& io = ImGui::GetIO();
    if (e.type == SDL_MOUSEMOTION)
        place_pointer(e.motion.x, e.motion.y);
    if (e.type == SDL_MOUSEBUTTONDOWN || e.type == SDL_MOUSEBUTTONUP) {
        place_pointer(e.button.x, e.button.y);
        if (const int k = button_of(e.button); k >= 0) {
            down_[static_cast<std::size_t>(k)] = e.type == SDL_MOUSEBUTTONDOWN;
            clicked_[static_cast<std::size_t>(k)] |= e.type == SDL_MOUSEBUTTONDOWN;
        }
    }
    if (e.type == SDL_MOUSEWHEEL) {
        io.MouseWheel += static_cast<float>(e.wheel.y);
        io.MouseWheelH += static_cast<float>(e.wheel.x);
    }
    if (e.type == SDL_TEXTINPUT)
        io.AddInputCharactersUTF8(e.text.text);
    if (e.type == SDL_KEYDOWN || e.type == SDL_KEYUP) {
        const int code = e.key.keysym.scancode;
        if (code >= 0 && code < IM_ARRAYSIZE(io.KeysDown))
            io.KeysDown[code] = e.type == SDL_KEYDOWN;
        const auto held = static_cast<unsigned>(e.key.keysym.mod);
        io.KeyShift = (held & KMOD_SHIFT) != 0;
        io.KeyCtrl = (held & KMOD_CTRL) != 0;
        io.KeyAlt = (held & KMOD_ALT) != 0;
    }
    if (e.type == SDL_WINDOWEVENT && e.window.event == SDL_WINDOWEVENT_LEAVE && !down_[0])
        io.MousePos = ImVec2(-FLT_MAX, -FLT_MAX);
    if (e.type == SDL_WINDOWEVENT && e.window.event == SDL_WINDOWEVENT_FOCUS_LOST)
        for (bool& key : io.KeysDown)
            key = false;
}

void Joint::begin(double dt_s) {
    ImGuiIO& io = ImGui::GetIO();
    const SDL_Point size = output_size(renderer_);
    io.DisplaySize = ImVec2(static_cast<float>(size.x), static_cast<float>(size.y));
    io.DeltaTime = static_cast<float>(std::max(dt_s, 1e-4));
    for (std::size_t k = 0; k < down_.size(); ++k) {
        io.MouseDown[k] = down_[k] || clicked_[k]; // pressed and let go between two frames counts for one
        clicked_[k] = false;
    }
}

void Joint::take_letters() {
    unsigned char* pixels = nullptr;
    int w = 0, h = 0;
    ImGui::GetIO().Fonts->GetTexDataAsRGBA32(&pixels, &w, &h);
    letters_.reset(SDL_CreateTexture(renderer_, SDL_PIXELFORMAT_ABGR8888, SDL_TEXTUREACCESS_STATIC, w, h));
    if (!letters_ || SDL_UpdateTexture(letters_.get(), nullptr, pixels, 4 * w) != 0)
        throw grid::IoError(fmt::format("the window: its letters: {}", SDL_GetError()));
    SDL_SetTextureBlendMode(letters_.get(), SDL_BLENDMODE_BLEND);
    ImGui::GetIO().Fonts->SetTexID(letters_.get());
}

void Joint::draw(const ImDrawData& data) {
    for (int n = 0; n < data.CmdListsCount; ++n) {
        const ImDrawList& list = *data.CmdLists[n];
        for (const ImDrawCmd& cmd : list.CmdBuffer) {
            if (cmd.UserCallback != nullptr || cmd.ElemCount == 0)
                continue;
            const SDL_Rect clip{static_cast<int>(std::floor(cmd.ClipRect.x)), static_cast<int>(std::floor(cmd.ClipRect.y)),
                                static_cast<int>(std::ceil(cmd.ClipRect.z) - std::floor(cmd.ClipRect.x)),
                                static_cast<int>(std::ceil(cmd.ClipRect.w) - std::floor(cmd.ClipRect.y))};
            if (clip.w <= 0 || clip.h <= 0)
                continue;
            SDL_RenderSetClipRect(renderer_, &clip);
            const ImDrawVert* v = list.VtxBuffer.Data + cmd.VtxOffset;
            SDL_RenderGeometryRaw(renderer_, static_cast<SDL_Texture*>(cmd.GetTexID()), &v->pos.x, sizeof(ImDrawVert),
                                  reinterpret_cast<const SDL_Color*>(&v->col), sizeof(ImDrawVert), &v->uv.x,
                                  sizeof(ImDrawVert), list.VtxBuffer.Size - static_cast<int>(cmd.VtxOffset),
                                  list.IdxBuffer.Data + cmd.IdxOffset, static_cast<int>(cmd.ElemCount),
                                  sizeof(ImDrawIdx));
        }
    }
    SDL_RenderSetClipRect(renderer_, nullptr);
}

} // namespace tidemark::viewer
