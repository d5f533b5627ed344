import { TextField } from './field'

/** Who one is and how one signs in, asked of everybody who comes into the house. */
export function AccountFields() {
  return (
    <>
      <TextField name="name" label="Your name" autoComplete="name" required />
      <TextField
        name="email"
        label="Email"
        type="email"
        autoComplete="username"
        required
        help="To sign in. Nothing is ever sent there."
      />
      <TextField
        name="password"
        label="Password"
        type="password"
        autoComplete="new-password"
        required
        help="At least 12 characters; a few unrelated words do well."
      />
    </>
  )
}
