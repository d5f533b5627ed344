/** Lays out the demo café on the database named by DATABASE_URL, and prints how to sign in. `npm run demo` calls it. */
import { theDatabase } from '@/lib/db/engine/client'
import { foundDemoHouse } from '@/lib/tasks/house/found-demo-house'
import { theWorld } from '@/lib/tasks/world'

const { email, password } = await foundDemoHouse(theWorld())
process.stdout.write(`Sign in as ${email} with the password ${password}`)
await theDatabase().$disconnect()
