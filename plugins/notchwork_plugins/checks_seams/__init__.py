"""Checks of seams: lengths, stations, ease and fullness, hands, joints, corners that run on."""
