/// Pressure at cells, mobility and first flux at faces: the start of a film step. Private row kernels of the room.
#pragma once

namespace tidemark::water {

/// What a row of cells needs for its pressure. `up` is row j-1, `down` j+1; `way` 0: closed (contact_line.h).
///
/// A contact line stands at the face between film and closed dry paper, not in the middle of the dry cell: there the
/// depth is 0, so the cell beyond counts as -h. Without it a pinned film is half a cell too wide, and at cells of 0.5 mm
/// falls to its edge too gently by a tenth.
struct PressureRow {
    const float *h, *h_up, *h_down, *b, *b_up, *b_down, *way, *way_up, *way_down;
    float *p, *diagonal;                ///< diagonal: d p / d h of the cell
    float g, G, suction, inverse_depth; ///< g cos α; γ/(ρ dx²); ψ0; 1/hr
};
void pressure_row(const PressureRow&, int begin, int end);

/// Depth at the end of the step, if water keeps flowing as in the last one; at most half as much again, at least
/// half.
struct AheadRow {
    const float *h, *qx, *qy, *qy_up;
    float* ahead;
    float k; ///< dt/dx
};
void ahead_row(const AheadRow&, int begin, int end);

/// What a row of faces needs: cells i (`a`) and i+1, or rows j and j+1 (`b`). `h`: depth to come; `way`: the deepest
/// film that may pass a cell, 0 where it is closed; `factor`: viscosity of the cell over the water's. With inertia only:
/// `now`: depth at the beginning; `speed`: with the momentum that has come to the face (momentum_rows.h).
struct FaceRow {
    const float *h_a, *h_b, *bed_a, *bed_b, *p_a, *p_b, *way_a, *way_b, *factor_a, *factor_b, *now_a, *now_b, *speed;
    float *q, *c;
    float* depth;  ///< that moves, with inertia only
    float slope;   ///< g sin α along the face's normal, m/s²
    float push;    ///< 1.5 τ/ρ of air that blows along it, m²/s²
    float nu3;     ///< 3ν of the water, m²/s
    float twice_g; ///< 2 g cos α, m/s²
    float dx, dt, held, felt_permeability, valley_share, mobility_cap; ///< m, s, m, m², 0 ... 1, m s
};
void face_row(const FaceRow&, int begin, int end, bool inertia);

} // namespace tidemark::water
