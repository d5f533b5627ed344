import 'server-only'
import type { Rule } from './rule'

export const houseRules = [
  {
    code: 'cafe-without-owner',
    find: `SELECT c.id FROM Cafe c WHERE NOT EXISTS (
             SELECT 1 FROM Membership m WHERE m.cafeId = c.id AND m.role = 'owner' AND m.removedAt IS NULL)`,
  },
  {
    code: 'role-unknown',
    find: `SELECT id, role FROM Membership WHERE role NOT IN ('owner', 'developer', 'pourer', 'bar', 'viewer')`,
  },
  {
    code: 'forgotten-member-stays',
    find: `SELECT m.id, m.userId AS user FROM Membership m JOIN User u ON u.id = m.userId
           WHERE m.removedAt IS NULL AND u.forgottenAt IS NOT NULL`,
  },
  {
    code: 'user-half-forgotten',
    find: `SELECT id FROM User
           WHERE (forgottenAt IS NOT NULL) <> (passwordHash = '') OR (forgottenAt IS NOT NULL AND name <> '')`,
  },
  {
    code: 'invitation-to-nothing',
    find: `SELECT id, kind FROM OneTimeLink
           WHERE kind NOT IN ('setup', 'invite', 'reset') OR (kind = 'invite') <> (cafeId IS NOT NULL)
             OR (kind = 'invite') <> (role IS NOT NULL)`,
  },
  {
    code: 'scale-shows-nothing',
    find: `SELECT id FROM Cafe WHERE doseScaleMg <= 0 OR pourScaleMg <= 0`,
  },
] as const satisfies readonly Rule[]
